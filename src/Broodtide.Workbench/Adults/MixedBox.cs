using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Development;
using Broodtide.Science.Development.Females;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Adults;

/// <summary>Part of a female's larvae in a gathering.</summary>
/// <param name="Brood">Her brood.</param>
/// <param name="Share">Share of the gathering that is hers, 0 to 1.</param>
/// <param name="Expected">The same as one number; the shares of all females sum to one.</param>
/// <param name="Larvae">Larvae that are hers; none where the gathering has no number.</param>
public sealed record MixedPart(BroodId Brood, Interval Share, double Expected, Interval? Larvae);

/// <summary>One gathering from a box that females shared.</summary>
/// <param name="Collection">The collection.</param>
/// <param name="Written">The brood it was written for.</param>
/// <param name="When">When.</param>
/// <param name="Number">How many, if it was said.</param>
/// <param name="Parts">Whose they are.</param>
public sealed record MixedGathering(
    CollectionId Collection,
    BroodId Written,
    Instant When,
    int? Number,
    IReadOnlyList<MixedPart> Parts
);

/// <summary>
/// Two or more berried females in one box: whose larvae its gatherings hold is told as a mixture with shares, from what is
/// believed of each clutch without its larvae, and from what was seen of each female since. The entries stay as written.
/// </summary>
/// <param name="Vessel">The box.</param>
/// <param name="Broods">The clutches in it, first in first.</param>
/// <param name="Gatherings">The gatherings, in the order of time.</param>
/// <param name="Remarks">What it rests on, and what would tell more.</param>
public sealed record MixedBox(
    VesselId Vessel,
    IReadOnlyList<BroodId> Broods,
    IReadOnlyList<MixedGathering> Gatherings,
    IReadOnlyList<Remark> Remarks
)
{
    // Larvae of females that were together longer ago than this are of another hatch.
    private static readonly Duration OneHatch = Duration.FromDays(14);

    /// <summary>The hatching boxes out of which larvae of a brood were gathered while another berried female was in them.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="brood">The brood.</param>
    public static IEnumerable<VesselId> BoxesOf(House house, Brood brood) =>
        brood
            .Gatherings.Select(gathering => (Box: BoxOf(brood, gathering), gathering.When))
            .Where(pair =>
                pair.Box is { } box
                && house.Vessel(box).Role is VesselRole.HatchingBox
                && CarriedIn(house, box, pair.When.Middle).Any(other => other != brood.Id)
            )
            .Select(pair => pair.Box!.Value)
            .Distinct();

    /// <summary>The mixture in a box; none where females never shared it while larvae were gathered.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="box">The box.</param>
    /// <param name="profiles">Whose numbers apply.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    public static MixedBox? Of(
        House house,
        VesselId box,
        HouseProfiles profiles,
        Instant now,
        DateTimeZone zone
    )
    {
        var gathered = house
            .Broods.SelectMany(brood => brood.Gatherings.Select(one => (Brood: brood, One: one)))
            .Where(pair => BoxOf(pair.Brood, pair.One) == box && pair.One.When.Latest <= now)
            .OrderBy(pair => pair.One.When.Latest)
            .ToList();
        if (gathered.Count == 0)
        {
            return null;
        }

        var last = gathered[^1].One.When.Latest;
        gathered.RemoveAll(pair => last - pair.One.When.Latest > OneHatch);
        var broods = gathered
            .SelectMany(pair => CarriedIn(house, box, pair.One.When.Middle).Append(pair.Brood.Id))
            .Distinct()
            .Take(SharedBox.MostFemales)
            .ToList();
        if (broods.Count < 2)
        {
            return null;
        }

        var axis = DayAxis.From(gathered[0].One.When.Latest, zone);
        var females = broods
            .Select(id => FemaleIn(house, house.Brood(id), profiles.Of(id), axis, now, zone))
            .ToList();
        if (females.Any(female => female is null))
        {
            return null;
        }

        var since = broods.Select(id => house.Brood(id).Isolated?.Earliest).Min();
        var from = axis.DayOf(Instant.Min(since ?? last - OneHatch, gathered[0].One.When.Latest));
        var nights = new List<BoxGathering>();
        foreach (var (_, one) in gathered)
        {
            var to = Math.Max(from, axis.DayOf(one.When.Latest));
            nights.Add(new(from, to, one.Made.Number is not 0));
            from = to;
        }

        var shares = SharedBox.Of([.. females.Select(female => female!)], nights);
        return new(
            box,
            broods,
            [.. gathered.Select((pair, at) => Told(pair.Brood.Id, pair.One, broods, shares[at]))],
            [
                new Remark("mixed-shares-are-a-belief"),
                .. broods.All(id => IsLookedAtSince(house, house.Brood(id), last))
                    ? Array.Empty<Remark>()
                    : [new Remark("mixed-look-who-is-empty")],
            ]
        );
    }

    private static MixedGathering Told(
        BroodId written,
        Gathering one,
        IReadOnlyList<BroodId> broods,
        BoxShares shares
    ) =>
        new(
            one.Made.Collection,
            written,
            one.When.Latest,
            one.Made.Number,
            [
                .. broods.Select(
                    (id, who) =>
                        new MixedPart(
                            id,
                            shares.Shares[who],
                            shares.Expected[who],
                            one.Made.Number is > 0 and var number ? shares.Shares[who].Scaled(number) : null
                        )
                ),
            ]
        );

    private static VesselId? BoxOf(Brood brood, Gathering one) => one.Made.From ?? brood.HatchingBox;

    /// <summary>The broods whose mothers were in a vessel and carried, or had carried it that night.</summary>
    internal static IEnumerable<BroodId> CarriedIn(House house, VesselId vessel, Instant at)
    {
        foreach (var animal in house.Animals.Where(animal => animal.PlaceAt(at) == vessel))
        {
            var brood = animal
                .Broods.Select(house.Brood)
                .LastOrDefault(brood => brood.FirstSeenBerried is { } seen && seen.Earliest <= at);
            if (
                brood is not null
                && brood.Dropped is not { }
                && (brood.HatchingOver is not { } over || over.Latest >= at)
                && !brood.Looks.Any(look =>
                    look.Seen.Carried is false && at - look.When.Earliest > Duration.FromDays(3)
                )
            )
            {
                yield return brood.Id;
            }
        }
    }

    // What is believed of a clutch without its larvae: those are what is in question.
    private static FemaleInBox? FemaleIn(
        House house,
        Brood brood,
        SpeciesProfile profile,
        DayAxis axis,
        Instant now,
        DateTimeZone zone
    )
    {
        if (BroodKnown.Of(house, brood, now, zone, axis) is not { } known)
        {
            return null;
        }

        var facts = known.Evidence.Facts.Where(fact => fact is not BroodFact.FirstLarvae).ToList();
        if (!facts.Any(fact => fact is not BroodFact.SeenEmpty))
        {
            return null;
        }

        var posterior = HatchForecast.From(EmbryoPriors.Of(profile), known.Evidence with { Facts = facts });
        var larvae = profile.Quantity(QuantityCodes.LarvaePerBrood);
        var (low, high) = (Math.Max(1, larvae.Low!.Value), Math.Max(2, larvae.High!.Value));
        return new(
            posterior.Quantile,
            Math.Sqrt(low * high),
            Math.Max(0, Math.Log(high / low)) / (2 * Interval.StandardNormal95)
        );
    }

    private static bool IsLookedAtSince(House house, Brood brood, Instant since) =>
        brood.Looks.Any(look => look.Seen.Carried is not null && look.When.Latest >= since)
        || brood.Animal is { } animal && house.Animal(animal).SeenEmpty.Any(when => when.Latest >= since);
}
