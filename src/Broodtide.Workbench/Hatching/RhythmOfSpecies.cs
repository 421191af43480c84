using Broodtide.Science.Development.Collecting;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Hatching;

/// <summary>
/// What a species profile believes of the hours of hatching and of an hour in fresh water. A profile without these
/// numbers gets those of this project, all of them assumed.
/// </summary>
internal static class RhythmOfSpecies
{
    private const string Peak = "hatch-peak-hours-after-noon";
    private const string Spread = "hatch-spread-hours";
    private const string Steady = "hatch-steady-share";
    private const string MeanLife = "larva-fresh-water-mean-hours";
    private const string Nights = "hatch-nights-per-brood";

    public static RhythmBelief Of(SpeciesProfile profile)
    {
        var life = Points(profile, MeanLife, 24, 60, 144);
        return new(
            Within(Points(profile, Peak, 8, 11, 15), 0, 24),
            Within(Points(profile, Spread, 1, 2, 4), 0.1, 12),
            Within(Points(profile, Steady, 0.02, 0.1, 0.3), 1e-3, 0.999),
            Within(Interval.FromPoints(1 / life.High, 1 / life.Middle, 1 / life.Low), 1e-5, 5)
        );
    }

    /// <summary>Of the larvae still to come, the share that hatches in one night, from the nights of a brood.</summary>
    public static Interval ShareOfNight(SpeciesProfile profile)
    {
        var nights = profile.Find(Nights);
        var low = Math.Clamp(1 / (nights?.High ?? 2), 0.05, 0.97);
        var high = Math.Clamp(1 / (nights?.Low ?? 1), low, 0.97);
        return Interval.FromPoints(low, 0.5 * (low + high), high);
    }

    /// <summary>Larvae of one brood, the ends of the profile taken as 5 and 95 % points.</summary>
    public static Interval LarvaePerBrood(SpeciesProfile profile)
    {
        var reported = profile.Find(QuantityCodes.LarvaePerBrood);
        var low = Math.Max(1, reported?.Low ?? 100);
        var high = Math.Max(low, reported?.High ?? 500);
        return Interval.FromPoints(low, Math.Sqrt(low * high), high);
    }

    private static Interval Points(
        SpeciesProfile profile,
        string code,
        double low,
        double middle,
        double high
    )
    {
        if (profile.Find(code) is not { Value: { } value } found || !(value > 0))
        {
            return Interval.FromPoints(low, middle, high);
        }

        // A keeper may choose one number without its ends: then the usual width stays, in proportion.
        var from = found.Low is { } l && l > 0 && l <= value ? l : value * low / middle;
        var to = found.High is { } h && h >= value ? h : value * high / middle;
        return Interval.FromPoints(from, value, to);
    }

    private static Interval Within(Interval points, double lowest, double highest) =>
        Interval.FromPoints(
            Math.Clamp(points.Low, lowest, highest),
            Math.Clamp(points.Middle, lowest, highest),
            Math.Clamp(points.High, lowest, highest)
        );
}
