using Broodtide.Science.Statistics;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Adults;

/// <summary>What a keeper wants of a purchase.</summary>
/// <param name="Chance">The chance wanted.</param>
/// <param name="Females">At least so many females, 0 or more.</param>
/// <param name="Males">At least so many males, 0 or more.</param>
/// <param name="Lots">From how many lots they are taken in equal parts, 1 to 6: shops, or tanks filled at different times.</param>
public sealed record BuyingWish(Probability Chance, int Females = 1, int Males = 1, int Lots = 1);

/// <summary>The chance that one number brings.</summary>
/// <param name="Animals">How many, all lots together.</param>
/// <param name="Chance">Chance of enough of both sexes, the doubt about the lot's share taken in.</param>
/// <param name="ChanceIfEven">The same if every animal were as likely a female whatever the lot: too good.</param>
public sealed record BuyingRow(int Animals, Probability Chance, Probability ChanceIfEven);

/// <summary>How many unsexed animals to buy for a wanted chance of both sexes, and on what assumption.</summary>
public sealed record BuyingBothSexes
{
    // Nobody buys more to get a pair; the answer is then another lot, or a look at the animals.
    internal const int Most = 100;
    private const double WidestShare = 0.02;

    private static readonly int[] Listed = [2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30];

    /// <summary>What was wanted.</summary>
    public required BuyingWish Wish { get; init; }

    /// <summary>The fewest animals that reach the wanted chance; none up to a hundred where no number does.</summary>
    public required int? Animals { get; init; }

    /// <summary>The fewest if every animal were as likely a female whatever the lot: what a plain binomial promises.</summary>
    public required int? AnimalsIfEven { get; init; }

    /// <summary>
    /// The fewest if the share were known, for the share that lies at the middle and for one as one-sided as one lot in
    /// ten: how much the answer owes to the lot. None where more than a hundred are needed.
    /// </summary>
    public required (int? MiddleLot, int? OneSidedLot) AnimalsByLot { get; init; }

    /// <summary>Share of females in a lot, 5, 50 and 95 % points over lots.</summary>
    public required Interval FemaleShare { get; init; }

    /// <summary>Chances of some numbers.</summary>
    public required IReadOnlyList<BuyingRow> Rows { get; init; }

    /// <summary>What it rests on.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>The answer.</summary>
    /// <param name="profile">The species, the keeper's choices included.</param>
    /// <param name="wish">What is wanted.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number of the wish is outside its range.</exception>
    public static BuyingBothSexes Of(SpeciesProfile profile, BuyingWish wish)
    {
        ArgumentNullException.ThrowIfNull(wish);
        Finite.Within(wish.Females, 0, Most, nameof(wish));
        Finite.Within(wish.Males, 0, Most, nameof(wish));
        Finite.Within(wish.Lots, 1, 6, nameof(wish));
        var quantity = profile.Find(AdultQuantityCodes.LotFemaleShare);
        var (share, belief) = ShareOf(quantity);
        var middle = Probability.FromFraction(share.Middle);
        var sided = Probability.FromFraction(OneSided(wish, share));
        Probability Even(int animals, Probability of) =>
            BothKinds.ChanceAt(animals, of, wish.Females, wish.Males);
        int? Fewest(Func<int, Probability> chance) => BothKinds.Fewest(wish.Chance, chance, Most);
        return new()
        {
            Wish = wish,
            Animals = Fewest(animals => Chance(animals, wish, belief)),
            AnimalsIfEven = Fewest(animals => Even(animals, middle)),
            AnimalsByLot = (
                Fewest(animals => Even(animals, middle)),
                Fewest(animals => Even(animals, sided))
            ),
            FemaleShare = share,
            Rows =
            [
                .. Listed
                    .Where(animals => animals >= wish.Females + wish.Males)
                    .Select(animals => new BuyingRow(
                        animals,
                        Chance(animals, wish, belief),
                        Even(animals, middle)
                    )),
            ],
            Remarks = [.. RemarksOf(quantity, share, wish)],
        };
    }

    private static Probability Chance(int animals, BuyingWish wish, BetaBelief share)
    {
        // In parts as equal as they can be.
        var lots = new int[wish.Lots];
        for (var i = 0; i < lots.Length; i++)
        {
            lots[i] = (animals / wish.Lots) + (i < animals % wish.Lots ? 1 : 0);
        }

        return BothKinds.Chance(lots, share, wish.Females, wish.Males);
    }

    private static (Interval Share, BetaBelief Belief) ShareOf(ProfileQuantity? quantity)
    {
        // Where a profile says nothing every share is held for as likely.
        var middle = Math.Clamp(quantity?.Value ?? 0.5, WidestShare, 1 - WidestShare);
        var low = Math.Clamp(quantity?.Low ?? 0.05, 1e-4, middle * 0.999);
        var (few, many) = (0.05, 1e5);
        for (var i = 0; i < 80; i++)
        {
            var size = Math.Sqrt(few * many);
            var below = new BetaBelief(middle * size, (1 - middle) * size).Quantile(
                Probability.FromFraction(0.05)
            );
            (few, many) = below < low ? (size, many) : (few, size);
        }

        var found = Math.Sqrt(few * many);
        var belief = new BetaBelief(middle * found, (1 - middle) * found);
        double At(double point) => belief.Quantile(Probability.FromFraction(point));
        return (Interval.FromPoints(At(0.05), At(0.5), At(0.95)), belief);
    }

    // The end of the shares that the wish suffers from most.
    private static double OneSided(BuyingWish wish, Interval share) =>
        wish.Females > 0 && (wish.Males == 0 || share.Low <= 1 - share.High) ? share.Low : share.High;

    private static IEnumerable<Remark> RemarksOf(ProfileQuantity? quantity, Interval share, BuyingWish wish)
    {
        yield return new Remark(
            "buy-lots-are-graded",
            new("shareLowPercent", 100 * share.Low),
            new("shareMiddlePercent", 100 * share.Middle),
            new("shareHighPercent", 100 * share.High)
        );
        yield return new Remark(
            quantity?.Provenance is Provenance.Measured && quantity.Chosen is null
                ? "buy-share-measured"
                : "buy-share-assumed"
        );
        if (wish.Lots == 1)
        {
            yield return new Remark("buy-two-lots-are-better");
        }
    }
}
