using Broodtide.Domain;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Pooling;

/// <summary>An answer that a number of the species moves.</summary>
public enum MovedAnswer
{
    /// <summary>The day of the first larvae.</summary>
    FirstLarvae,

    /// <summary>The day by which half of the larvae have settled.</summary>
    HalfSettled,

    /// <summary>The juveniles to expect.</summary>
    Juveniles,
}

/// <summary>How far one answer of one brood moves with a number.</summary>
/// <param name="Brood">The brood under way.</param>
/// <param name="Answer">The answer, its median.</param>
/// <param name="AtLow">What it is if the number lies at its 5 % point, where the answer is a time.</param>
/// <param name="AtHigh">The same at the 95 % point.</param>
/// <param name="LarvaeAtLow">What it is at the 5 % point, where the answer is a number of larvae.</param>
/// <param name="LarvaeAtHigh">The same at the 95 % point.</param>
public sealed record NumberMove(
    BroodId Brood,
    MovedAnswer Answer,
    Instant? AtLow,
    Instant? AtHigh,
    double? LarvaeAtLow = null,
    double? LarvaeAtHigh = null
);

/// <summary>
/// What a number moves: the answers of the broods under way, told once with it at its 5 % point and once at its 95 %
/// point, everything else as it is. A number that moves nothing need not be known better.
/// </summary>
public static class NumberMoves
{
    // A number is held at a point by a spread this small, as a share of it.
    private const double Held = 0.005;

    /// <summary>The answers it moves.</summary>
    public static IReadOnlyList<NumberMove> Of(Outlook outlook, PooledNumber number) =>
        InPieces(outlook, number).Last()!;

    /// <summary>The same in pieces: none at each pause, the answers last.</summary>
    public static IEnumerable<IReadOnlyList<NumberMove>?> InPieces(Outlook outlook, PooledNumber number)
    {
        var code = number.Quantity.Code;
        var moves = new List<NumberMove>();
        foreach (var brood in outlook.BroodsUnderWay)
        {
            var profile = outlook.Profiles.Of(brood.Id);
            if (profile.Find(code) is not { } quantity || !ReferenceEquals(quantity, number.Quantity))
            {
                continue;
            }

            var (low, high) = (With(profile, number.Next.Low), With(profile, number.Next.High));
            if (code == QuantityCodes.EmbryoDegreeDays)
            {
                if (brood.FirstLarvae is null)
                {
                    var first = BroodForecast.Of(outlook.House, brood, low, outlook.Now, outlook.Zone);
                    yield return null;
                    var last = BroodForecast.Of(outlook.House, brood, high, outlook.Now, outlook.Zone);
                    yield return null;
                    if (first is not null && last is not null)
                    {
                        moves.Add(new(brood.Id, MovedAnswer.FirstLarvae, first.Median, last.Median));
                    }
                }

                continue;
            }

            PopulationEstimate? atLow = null;
            foreach (var piece in Estimate(outlook, brood.Id, low))
            {
                atLow = piece;
                yield return null;
            }

            PopulationEstimate? atHigh = null;
            foreach (var piece in Estimate(outlook, brood.Id, high))
            {
                atHigh = piece;
                yield return null;
            }

            if (atLow is not null && atHigh is not null)
            {
                moves.Add(
                    new(
                        brood.Id,
                        MovedAnswer.HalfSettled,
                        atLow.Settlement.Half.Middle,
                        atHigh.Settlement.Half.Middle
                    )
                );
                moves.Add(
                    new(
                        brood.Id,
                        MovedAnswer.Juveniles,
                        null,
                        null,
                        atLow.Juveniles.Middle,
                        atHigh.Juveniles.Middle
                    )
                );
            }
        }

        yield return moves;

        // The belief narrowed to a point; the other quantities stay.
        SpeciesProfile With(SpeciesProfile profile, double at)
        {
            var original = number.Quantity.Original;
            return profile.With([
                .. profile.Quantities.Select(quantity => quantity.Chosen?.Choice).OfType<ProfileChoice>(),
                new ProfileChoice(
                    code,
                    original.Value is null ? null : at,
                    original.Low is null ? null : at * (1 - Held),
                    original.High is null ? null : at * (1 + Held),
                    number.Quantity.Unit.Code,
                    "what if",
                    "",
                    outlook.Now
                ),
                .. code == QuantityCodes.EmbryoDegreeDays
                    ?
                    [
                        new ProfileChoice(
                            QuantityCodes.EmbryoSpreadFactor,
                            1 + Held,
                            null,
                            null,
                            profile.Find(QuantityCodes.EmbryoSpreadFactor)!.Unit.Code,
                            "what if",
                            "",
                            outlook.Now
                        ),
                    ]
                    : Array.Empty<ProfileChoice>(),
            ]);
        }
    }

    private static IEnumerable<PopulationEstimate?> Estimate(
        Outlook outlook,
        BroodId brood,
        SpeciesProfile profile
    ) =>
        new LarvalPopulations(outlook.House, _ => profile, () => outlook.WaterThen, outlook.Now)
            .Of(brood)
            ?.EstimateInPieces()
        ?? [];
}
