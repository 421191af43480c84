using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Hatch day from eggs whose eye-spots were not there on one day and there on a later one, and that have not hatched
/// yet. The eye-spot day is a share of the hatch day with a lognormal scatter; being seen is interval evidence, never
/// the moment itself; not hatched yet cuts the belief off. Days count from spawning. Grid of 0.01 d.
/// </summary>
public static class EyeSpots
{
    private const double Step = 0.01;
    private const double ReachInStandardDeviations = 9;
    private const double WidestPriorDays = 365;

    /// <summary>The belief about the hatch day after the evidence.</summary>
    /// <param name="prior">Hatch day before, in days; standard deviation up to 365.</param>
    /// <param name="ratio">Eye-spot day as a share of the hatch day.</param>
    /// <param name="evidence">What was seen and not seen.</param>
    /// <exception cref="ArgumentException">The evidence leaves no day possible.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The prior is wider than a year.</exception>
    public static GridDistribution HatchDay(NormalBelief prior, EyeSpotRatio ratio, EyeSpotEvidence evidence)
    {
        var reach =
            ReachInStandardDeviations
            * Finite.Within(prior.StandardDeviation, 0, WidestPriorDays, nameof(prior));
        var start = Math.Max(0, prior.Mean - reach);
        if (evidence.NotHatchedDay is { } alive)
        {
            start = Math.Max(start, alive);
        }

        var cells = (int)Math.Ceiling((prior.Mean + reach - start) / Step);
        if (cells <= 0)
        {
            throw new ArgumentException("Not hatched so late contradicts the prior.", nameof(evidence));
        }

        var weights = new double[cells];
        for (var i = 0; i < cells; i++)
        {
            var day = start + ((i + 0.5) * Step);
            var z = (day - prior.Mean) / prior.StandardDeviation;
            weights[i] = Math.Exp(-0.5 * z * z) * ratio.ProbabilityOf(evidence, day);
        }

        return new(start, Step, weights);
    }
}

/// <summary>Eye-spot day over hatch day, lognormal.</summary>
public sealed record EyeSpotRatio
{
    /// <summary>A ratio with its scatter.</summary>
    /// <param name="median">Median ratio, above 0 to 1.</param>
    /// <param name="logStandardDeviation">Standard deviation of its logarithm, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public EyeSpotRatio(double median, double logStandardDeviation)
    {
        Median = Finite.Within(median, double.Epsilon, 1);
        LogStandardDeviation = Finite.Positive(logStandardDeviation);
    }

    /// <summary>Median ratio.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of its logarithm.</summary>
    public double LogStandardDeviation { get; }

    /// <summary>Probability of the evidence on the eye-spots, were the hatch on a day.</summary>
    internal double ProbabilityOf(EyeSpotEvidence evidence, double hatchDay) =>
        (evidence.SeenDay is { } seen ? Cumulative(seen, hatchDay) : 1)
        - (evidence.NotSeenDay is { } notSeen ? Cumulative(notSeen, hatchDay) : 0);

    private double Cumulative(double day, double hatchDay) =>
        day <= 0
            ? 0
            : 0.5
                * SpecialFunctions.Erfc(
                    -Math.Log(day / (Median * hatchDay)) / (LogStandardDeviation * Math.Sqrt(2))
                );
}

/// <summary>What was seen of the eggs, in days since spawning; what was not looked at is left out.</summary>
public sealed record EyeSpotEvidence
{
    /// <summary>Evidence.</summary>
    /// <param name="notSeenDay">Last day without eye-spots.</param>
    /// <param name="seenDay">First day they were seen.</param>
    /// <param name="notHatchedDay">Last day the eggs were still carried.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not finite or negative, or seen before they were not seen.
    /// </exception>
    public EyeSpotEvidence(double? notSeenDay, double? seenDay, double? notHatchedDay)
    {
        NotSeenDay = notSeenDay is { } none ? Finite.NotNegative(none) : null;
        SeenDay = seenDay is { } seen ? Finite.Within(seen, notSeenDay ?? 0, double.MaxValue) : null;
        NotHatchedDay = notHatchedDay is { } alive ? Finite.NotNegative(alive) : null;
    }

    /// <summary>Last day without eye-spots.</summary>
    public double? NotSeenDay { get; }

    /// <summary>First day they were seen.</summary>
    public double? SeenDay { get; }

    /// <summary>Last day the eggs were still carried.</summary>
    public double? NotHatchedDay { get; }
}
