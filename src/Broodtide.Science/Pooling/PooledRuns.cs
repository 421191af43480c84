using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Pooling;

/// <summary>
/// Runs pooled under random effects: each run has a truth of its own, normal about a common mean. Sources: Viechtbauer
/// 2010, J. Stat. Softw. 36(3); Knapp and Hartung 2003, Stat. Med. 22:2693; Higgins, Thompson and Spiegelhalter 2009,
/// J. R. Stat. Soc. A 172:137.
/// </summary>
public sealed class PooledRuns
{
    private readonly RunsRegression _fit;

    private PooledRuns(RunsRegression fit) => _fit = fit;

    /// <summary>How many runs.</summary>
    public int Runs => _fit.Rows;

    /// <summary>The common mean, on the scale of the effects.</summary>
    public double Mean => _fit.Coefficients[0];

    /// <summary>Standard error of the mean, the variance between runs taken as known.</summary>
    public double StandardError => Math.Sqrt(_fit.Covariance[0, 0]);

    /// <summary>Variance between the truths of runs, in the square of the scale.</summary>
    public double BetweenVariance => _fit.BetweenVariance;

    /// <summary>Cochran's Q: squared distances from the mean of one common truth, each over its own variance.</summary>
    public double Q => _fit.QAt(0);

    /// <summary>Share of the variance that lies between runs and not in their errors, 0 to 1; 0 for one run.</summary>
    public double ShareBetween => Runs < 2 ? 0 : BetweenVariance / (BetweenVariance + _fit.TypicalVariance);

    /// <summary>Pools runs.</summary>
    /// <param name="effects">Two or more, or one where there is nothing between runs.</param>
    /// <param name="between">How the variance between runs is found.</param>
    /// <exception cref="ArgumentException">Too few runs.</exception>
    public static PooledRuns Of(
        IReadOnlyList<RunEffect> effects,
        BetweenRuns between = BetweenRuns.RestrictedLikelihood
    ) => new(RunsRegression.Fit(effects, RegressionDesign.OneMean(Math.Max(1, effects.Count)), between));

    /// <summary>
    /// Where the common mean lies: the error is taken from how far the runs lie apart, by Student's t with one degree of
    /// freedom less than runs (Knapp and Hartung), which holds also for few runs.
    /// </summary>
    /// <param name="level">How sure, above 0 and below 1.</param>
    /// <exception cref="InvalidOperationException">There is one run only.</exception>
    public Limits MeanWithin(Probability level)
    {
        var freedom = AtLeast(2) - 1;
        var error = Math.Sqrt(_fit.QAt(BetweenVariance) / freedom * _fit.Covariance[0, 0]);
        return About(StudentT.InvCDF(0, 1, freedom, 1 - Limits.Tail(level)) * error, level);
    }

    /// <summary>Where the truth of the next run lies were mean and variance between runs known well: by the normal curve.</summary>
    /// <param name="level">How sure, above 0 and below 1.</param>
    public Limits NextByNormal(Probability level) =>
        About(Normal.InvCDF(0, 1, 1 - Limits.Tail(level)) * NextDeviation, level);

    /// <summary>
    /// Where the truth of the next run lies, by Student's t with two degrees of freedom less than runs (Higgins, Thompson
    /// and Spiegelhalter 2009, section 4.2).
    /// </summary>
    /// <param name="level">How sure, above 0 and below 1.</param>
    /// <exception cref="InvalidOperationException">There are less than three runs.</exception>
    public Limits Next(Probability level) =>
        About(StudentT.InvCDF(0, 1, AtLeast(3) - 2, 1 - Limits.Tail(level)) * NextDeviation, level);

    /// <summary>
    /// Where the variance between runs lies: those values at which Q, with it put in, is neither improbably large nor
    /// improbably small (Viechtbauer 2007, Stat. Med. 26:37). The lower limit is 0 where none is needed.
    /// </summary>
    /// <param name="level">How sure, above 0 and below 1.</param>
    /// <exception cref="InvalidOperationException">There is one run only.</exception>
    public Limits BetweenVarianceWithin(Probability level)
    {
        var freedom = AtLeast(2) - 1;
        var tail = Limits.Tail(level);
        return new(
            _fit.VarianceOfQ(ChiSquared.InvCDF(freedom, 1 - tail)),
            _fit.VarianceOfQ(ChiSquared.InvCDF(freedom, tail)),
            level
        );
    }

    private double NextDeviation => Math.Sqrt(BetweenVariance + _fit.Covariance[0, 0]);

    private Limits About(double reach, Probability level) => new(Mean - reach, Mean + reach, level);

    private int AtLeast(int runs) =>
        Runs >= runs ? Runs : throw new InvalidOperationException($"{runs} runs at least are needed.");
}
