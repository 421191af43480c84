using Broodtide.Science.Statistics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.RootFinding;

namespace Broodtide.Science.Pooling;

/// <summary>
/// Effects of runs that hang on what is known of each run, with a normal rest between runs (mixed-effects meta-regression;
/// Viechtbauer 2010, J. Stat. Softw. 36(3), section 2). Work and memory grow with the number of runs, not with its square.
/// </summary>
public sealed class RunsRegression
{
    private const int MostSteps = 500;
    private const double StepOfSearch = 1.3;

    private readonly Vector<double> _effects;
    private readonly Vector<double> _variances;
    private readonly Matrix<double> _design;

    private RunsRegression(
        Vector<double> effects,
        Vector<double> variances,
        Matrix<double> design,
        IReadOnlyList<string> names
    )
    {
        (_effects, _variances, _design, Names) = (effects, variances, design, names);
        (Coefficients, Covariance) = ([], design.TransposeThisAndMultiply(design));
    }

    /// <summary>Names of the coefficients.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>The coefficients, on the scale of the effects.</summary>
    public IReadOnlyList<double> Coefficients { get; private set; }

    /// <summary>Variance left between runs.</summary>
    public double BetweenVariance { get; private set; }

    internal int Rows => _effects.Count;

    internal Matrix<double> Covariance { get; private set; }

    /// <summary>The variance that a typical run's error has (Higgins and Thompson 2002, Stat. Med. 21:1539).</summary>
    internal double TypicalVariance => (Rows - _design.ColumnCount) / Traces(Weights(0)).First;

    /// <summary>Standard error of a coefficient, the variance between runs taken as known.</summary>
    /// <exception cref="ArgumentException">There is no such coefficient.</exception>
    public double StandardError(string name)
    {
        var at = Names.ToList().IndexOf(name);
        return at >= 0
            ? Math.Sqrt(Covariance[at, at])
            : throw new ArgumentException($"There is no coefficient {name}.", nameof(name));
    }

    /// <summary>Fits coefficients and the variance between runs.</summary>
    /// <param name="effects">One for each row of the design, more than it has columns.</param>
    /// <param name="design">What is known of each run.</param>
    /// <param name="between">How the variance between runs is found.</param>
    /// <exception cref="ArgumentException">Too few runs, rows differ, or the columns say the same twice.</exception>
    public static RunsRegression Fit(
        IReadOnlyList<RunEffect> effects,
        RegressionDesign design,
        BetweenRuns between = BetweenRuns.RestrictedLikelihood
    )
    {
        var x = design.Matrix();
        var least = x.ColumnCount + (between == BetweenRuns.None ? 0 : 1);
        if (effects.Count != design.Rows || effects.Count < least || x.Rank() < x.ColumnCount)
        {
            throw new ArgumentException(
                $"Pooling needs one effect for each row, {least} at least, and columns of which none follows from the others.",
                nameof(effects)
            );
        }

        var fit = new RunsRegression(
            Vector<double>.Build.DenseOfEnumerable(effects.Select(effect => effect.Estimate)),
            Vector<double>.Build.DenseOfEnumerable(effects.Select(effect => effect.Variance)),
            x,
            design.Names
        );
        fit.Settle(
            between switch
            {
                BetweenRuns.None => 0,
                BetweenRuns.DerSimonianLaird => fit.ByMoments(),
                BetweenRuns.PauleMandel => fit.VarianceOfQ(fit.Rows - x.ColumnCount),
                BetweenRuns.Likelihood or BetweenRuns.RestrictedLikelihood => fit.ByLikelihood(
                    between == BetweenRuns.RestrictedLikelihood
                ),
                _ => throw new ArgumentOutOfRangeException(nameof(between), between, "No such way."),
            }
        );
        return fit;
    }

    /// <summary>Squared residuals over their variances, with a variance between runs put in.</summary>
    internal double QAt(double betweenVariance)
    {
        var weights = Weights(betweenVariance);
        var rest = Residuals(weights);
        return weights.PointwiseMultiply(rest) * rest;
    }

    /// <summary>The variance between runs at which Q takes a value; 0 where it is below it already.</summary>
    internal double VarianceOfQ(double q)
    {
        if (QAt(0) <= q)
        {
            return 0;
        }

        var most = _variances.Maximum();
        while (QAt(most) > q)
        {
            most *= 2;
        }

        return Brent.FindRoot(variance => QAt(variance) - q, 0, most, 1e-12 * most, 500);
    }

    private void Settle(double betweenVariance)
    {
        BetweenVariance = betweenVariance;
        var weights = Weights(betweenVariance);
        Covariance = Information(weights, 1).Inverse();
        Coefficients = [.. (Covariance * Right(weights))];
    }

    private double ByMoments() =>
        Math.Max(0, (QAt(0) - (Rows - _design.ColumnCount)) / Traces(Weights(0)).First);

    // Where the likelihood is highest. It may have several tops, one of them at none: its slope is looked at on steps that
    // grow with the variance of a run, and of all places where it stops rising the highest counts.
    private double ByLikelihood(bool isRestricted)
    {
        var least = _variances.Minimum();
        var most = _variances.Maximum() + Residuals(Weights(0)).PointwisePower(2).Sum();
        while (Rise(most) > 0)
        {
            most *= 2;
        }

        var (top, highest) = (0.0, LogLikelihood(0, isRestricted));
        var (from, rise) = (0.0, Rise(0));
        while (from < most)
        {
            var to = Math.Min(most, ((from + least) * StepOfSearch) - least);
            var next = Rise(to);
            if (rise > 0 && next <= 0)
            {
                var found = Brent.FindRoot(Rise, from, to, 1e-14 * (1 + to), MostSteps);
                var log = LogLikelihood(found, isRestricted);
                (top, highest) = log > highest ? (found, log) : (top, highest);
            }

            (from, rise) = (to, next);
        }

        return top;

        double Rise(double variance)
        {
            var weights = Weights(variance);
            var pull = weights.PointwiseMultiply(Residuals(weights));
            return (pull * pull) - (isRestricted ? Traces(weights).First : weights.Sum());
        }
    }

    // Without what does not hang on the variance between runs.
    private double LogLikelihood(double betweenVariance, bool isRestricted)
    {
        var weights = Weights(betweenVariance);
        var determinant = isRestricted ? Math.Log(Information(weights, 1).Determinant()) : 0;
        return -0.5 * (QAt(betweenVariance) + determinant - weights.PointwiseLog().Sum());
    }

    // Of P = W - W X (X' W X)^-1 X' W the traces of P and of P P, without forming it.
    private (double First, double Second) Traces(Vector<double> weights)
    {
        var covariance = Information(weights, 1).Inverse();
        var (two, three) = (covariance * Information(weights, 2), covariance * Information(weights, 3));
        return (
            weights.Sum() - two.Trace(),
            weights.PointwisePower(2).Sum() - (2 * three.Trace()) + (two * two).Trace()
        );
    }

    private Matrix<double> Information(Vector<double> weights, int power)
    {
        var columns = _design.ColumnCount;
        var sum = Matrix<double>.Build.Dense(columns, columns);
        var factor = weights.PointwisePower(power);
        for (var i = 0; i < columns; i++)
        {
            var weighted = factor.PointwiseMultiply(_design.Column(i));
            for (var j = 0; j <= i; j++)
            {
                sum[i, j] = sum[j, i] = weighted * _design.Column(j);
            }
        }

        return sum;
    }

    private Vector<double> Right(Vector<double> weights) =>
        _design.TransposeThisAndMultiply(weights.PointwiseMultiply(_effects));

    private Vector<double> Residuals(Vector<double> weights) =>
        _effects - (_design * Information(weights, 1).Solve(Right(weights)));

    private Vector<double> Weights(double betweenVariance) =>
        (_variances + betweenVariance).PointwisePower(-1);
}
