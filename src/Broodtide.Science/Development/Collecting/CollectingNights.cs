using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Collecting;

/// <summary>What is known of the larvae of one brood, night by night. Hour 0 is the noon before the night at hand.</summary>
public sealed record CollectingNights
{
    /// <summary>Larvae that hatch in the night at hand if it is a hatch night, before tonight's gatherings, above zero.</summary>
    public required Interval LarvaeOfNight { get; init; }

    /// <summary>
    /// Of the larvae still to come, the share that hatches in one night; above 0 and below 1. The next night holds
    /// what is left.
    /// </summary>
    public required Interval ShareOfNight { get; init; }

    /// <summary>The first night in which anything hatched: 0 the one at hand, -1 the one before.</summary>
    public int FirstNight { get; init; }

    /// <summary>Gatherings of the night at hand whose larvae were numbered.</summary>
    public IReadOnlyList<GatheredLarvae> GatheredTonight { get; init; } = [];

    /// <summary>When the hatching box was last emptied of larvae, hours; none if never.</summary>
    public double? EmptiedHours { get; init; }
}

/// <summary>The hours ahead from a rhythm and what is known of a brood's nights.</summary>
public static class CollectingAhead
{
    // No larva older than this is looked for in the box.
    private const int MostNightsBack = 3;

    // Larvae leave together in about such numbers, and a number written down is right to about so much: assumptions
    // that say how well one night's gatherings tell that night's larvae.
    private const double BurstLarvae = 8;
    private const double NumberingError = 0.25;

    // Less than this share of a night gathered tells nothing of the night.
    private const double LeastShare = 0.005;

    /// <summary>One scenario for each possibility of the rhythm.</summary>
    /// <param name="rhythm">The hours of hatching and the loss.</param>
    /// <param name="nights">What is known of the brood.</param>
    /// <param name="startHours">The first moment, hours after the noon of the night at hand; may be below zero.</param>
    /// <param name="slotHours">Length of a slot, hours.</param>
    /// <param name="mayGather">For every moment whether someone can gather.</param>
    /// <param name="worthOfThoseLeft">What a larva left alive at the end is worth, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its limits.</exception>
    public static CollectingScene Scene(
        HatchingRhythm rhythm,
        CollectingNights nights,
        double startHours,
        double slotHours,
        IReadOnlyList<bool> mayGather,
        double worthOfThoseLeft
    ) => InPieces(rhythm, nights, startHours, slotHours, mayGather, worthOfThoseLeft).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Scene"/>
    public static IEnumerable<CollectingScene?> InPieces(
        HatchingRhythm rhythm,
        CollectingNights nights,
        double startHours,
        double slotHours,
        IReadOnlyList<bool> mayGather,
        double worthOfThoseLeft
    )
    {
        Finite.Within(startHours, -24, 48);
        Finite.Positive(slotHours);
        Finite.Positive(nights.LarvaeOfNight.Low);
        Finite.Within(nights.ShareOfNight.Low, 1e-3, 0.999);
        Finite.Within(nights.ShareOfNight.High, 1e-3, 0.999);
        Finite.Within(nights.FirstNight, -1000, 0);
        return Telling(rhythm, nights, startHours, slotHours, mayGather, worthOfThoseLeft);
    }

    private static IEnumerable<CollectingScene?> Telling(
        HatchingRhythm rhythm,
        CollectingNights nights,
        double startHours,
        double slotHours,
        IReadOnlyList<bool> mayGather,
        double worthOfThoseLeft
    )
    {
        var scenarios = new List<CollectingScenario>();
        foreach (var draw in rhythm.Possibilities)
        {
            if (scenarios.Count % HatchingRhythm.DrawsOfPiece == HatchingRhythm.DrawsOfPiece - 1)
            {
                yield return null;
            }

            scenarios.Add(
                Scenario(draw, scenarios.Count + 1, nights, startHours, slotHours, mayGather.Count - 1)
            );
        }

        yield return new(slotHours, mayGather, scenarios, worthOfThoseLeft);
    }

    private static CollectingScenario Scenario(
        RhythmDraw draw,
        int index,
        CollectingNights nights,
        double startHours,
        double slotHours,
        int slots
    )
    {
        var share =
            1 / (1 + Math.Exp(-Between(nights.ShareOfNight, s => Math.Log(s / (1 - s)), Z(index, 13))));
        var (larvae, evidence) = LarvaeOfNight(draw, nights, Z(index, 11));
        double OfNight(int night) => night < nights.FirstNight ? 0 : larvae * Math.Pow(1 - share, night);

        // What lies in the box now, carried from noon to noon.
        var at = Math.Max(
            nights.EmptiedHours ?? double.NegativeInfinity,
            24 * Math.Max(nights.FirstNight, -MostNightsBack)
        );
        var waiting = 0.0;
        foreach (var (night, from, to) in Nightly(at, startHours))
        {
            waiting =
                (waiting * Math.Exp(-draw.LossPerHour * (to - from)))
                + (OfNight(night) * draw.AliveOf(from, to));
        }

        var hatching = new double[slots];
        for (var slot = 0; slot < slots; slot++)
        {
            var begins = startHours + (slot * slotHours);
            foreach (var (night, from, to) in Nightly(begins, begins + slotHours))
            {
                hatching[slot] += OfNight(night) * draw.Hatching(from, to);
            }
        }

        return new(draw.Weight * evidence, waiting, hatching, draw.LossPerHour);
    }

    // Lognormal; what was gathered tonight, over the share that this rhythm says was there to be gathered, both moves
    // it and says how well the rhythm fits.
    private static (double Larvae, double Evidence) LarvaeOfNight(
        RhythmDraw draw,
        CollectingNights nights,
        double z
    )
    {
        var there = nights.GatheredTonight.Sum(gathered =>
            draw.AliveOf(gathered.FromHours, gathered.AtHours)
        );
        if (nights.GatheredTonight.Count == 0 || there < LeastShare)
        {
            return (Math.Exp(Between(nights.LarvaeOfNight, Math.Log, z)), 1);
        }

        var gathered = Math.Max(0.5, nights.GatheredTonight.Sum(g => Finite.NotNegative(g.Larvae)));
        var seen = Math.Log(gathered / there);
        var seenVariance = (NumberingError * NumberingError) + (BurstLarvae / (gathered + BurstLarvae));
        var believed = Math.Log(nights.LarvaeOfNight.Middle);
        var sd =
            (Math.Log(nights.LarvaeOfNight.High) - Math.Log(nights.LarvaeOfNight.Low))
            / (2 * Interval.StandardNormal95);
        var variance = Math.Max(1e-6, sd * sd);
        var both = 1 / ((1 / variance) + (1 / seenVariance));
        var mean = both * ((believed / variance) + (seen / seenVariance));
        return (
            Math.Exp(mean + (Math.Sqrt(both) * z)),
            Normal.PDF(believed, Math.Sqrt(variance + seenVariance), seen)
        );
    }

    private static IEnumerable<(int Night, double From, double To)> Nightly(double from, double to)
    {
        while (from < to)
        {
            var night = (int)Math.Floor((from / 24) + 1e-9);
            var end = Math.Min(to, 24.0 * (night + 1));
            yield return (night, from, end);
            from = end;
        }
    }

    private static double Z(int index, int prime) => Normal.InvCDF(0, 1, WeightedPoints.Halton(index, prime));

    private static double Between(Interval points, Func<double, double> there, double z)
    {
        var middle = there(points.Middle);
        var side = z < 0 ? middle - there(points.Low) : there(points.High) - middle;
        return middle + (z / Interval.StandardNormal95 * side);
    }
}
