using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Workbench.TideLine;

/// <summary>
/// How far a number of larvae may be off by the way it was arrived at. The factors are practice without a source:
/// seeing is not counting, and whoever gathers larvae in a beam does not see all.
/// </summary>
public static class CountIntervals
{
    // Factor from the number to its 5 and 95 % points.
    private const double GlanceFactor = 2;
    private const double BeamFactor = 1.4;
    private const double PhotoFactor = 1.15;
    private const double FullFactor = 1.05;

    /// <summary>A number that was said, by its method.</summary>
    public static Interval Of(int number, CountMethod? method)
    {
        var factor = method switch
        {
            CountMethod.Full => FullFactor,
            CountMethod.Photo => PhotoFactor,
            CountMethod.Beam or CountMethod.Aliquot => BeamFactor,
            _ => GlanceFactor,
        };
        var least = Math.Max(0, number);
        // None seen may be some: the rule of three (an upper 95 % bound of 3 for a Poisson count of none).
        return number <= 0
            ? Interval.FromPoints(0, 0, 3 * factor)
            : Interval.FromPoints(least / factor, least, least * factor);
    }

    /// <summary>A count, with samples scaled up by volume where it was made by samples.</summary>
    /// <param name="count">The count.</param>
    /// <param name="litres">Water in the vessel then; none if nobody knows.</param>
    /// <returns>The interval, or none where samples have no volume to be scaled by.</returns>
    public static Interval? Of(CountMade count, double? litres)
    {
        var seen = count.Samples.Sum(sample => (double)Math.Max(0, sample.Seen));
        if (count.Method is not CountMethod.Aliquot)
        {
            return Of((int)Math.Min(int.MaxValue, seen), count.Method);
        }

        var sampled = count.Samples.Sum(sample => sample.Volume.AsVolume()?.Litres ?? 0);
        if (sampled <= 0 || litres is not { } water || water <= 0)
        {
            return null;
        }

        // Jeffreys' prior for a Poisson rate: shape one half, no exposure.
        var perLitre = new GammaBelief(0.5 + seen, sampled);
        return perLitre.ToInterval().Scaled(Math.Max(water, sampled));
    }
}
