using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Workbench.Population;

/// <summary>
/// How far a number of larvae that was said, as at a collection or a crossing, may be off by the way it was arrived at.
/// The factors are practice without a source.
/// </summary>
public static class SaidNumber
{
    // Factor from the number to its 5 and 95 % points.
    private const double GlanceFactor = 2;
    private const double BeamFactor = 1.4;
    private const double PhotoFactor = 1.15;
    private const double FullFactor = 1.05;

    // None seen may be some: an upper 95 % bound of 3 for a Poisson count of none.
    private const double RuleOfThree = 3;

    /// <summary>The number with its interval, larvae.</summary>
    /// <param name="number">What was said; below zero is taken as none.</param>
    /// <param name="method">How it was arrived at; a glance if nobody said.</param>
    public static Interval Of(int number, CountMethod? method)
    {
        var factor = method switch
        {
            CountMethod.Full => FullFactor,
            CountMethod.Photo => PhotoFactor,
            CountMethod.Beam or CountMethod.Aliquot => BeamFactor,
            _ => GlanceFactor,
        };
        return number <= 0
            ? Interval.FromPoints(0, 0, RuleOfThree * factor)
            : Interval.FromPoints(number / factor, number, number * factor);
    }
}
