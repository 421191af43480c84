using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Survival;

/// <summary>The shape of the lives that is fitted.</summary>
public enum LifeShape
{
    /// <summary>Weibull: the scale of the logarithm is fitted.</summary>
    Weibull,

    /// <summary>Exponential: a constant hazard, the scale of the logarithm is 1.</summary>
    Exponential,
}

/// <summary>
/// A fit of log T = intercept + coefficient x covariate + scale x W, with W the logarithm of a standard exponential
/// life. The Weibull shape is 1/scale, its characteristic life exp(intercept).
/// </summary>
/// <param name="Intercept">Logarithm of the characteristic life where the covariate is zero.</param>
/// <param name="Coefficient">What one unit of the covariate adds to it; none without a covariate.</param>
/// <param name="Scale">Scale of the logarithm, above zero.</param>
/// <param name="LogLikelihood">In nat, of densities per unit of time where deaths are exact.</param>
/// <param name="StandardErrors">
/// Of intercept, coefficient (if any) and log scale (if fitted), from the observed information.
/// </param>
public sealed record ParametricFit(
    double Intercept,
    double? Coefficient,
    double Scale,
    double LogLikelihood,
    IReadOnlyList<double> StandardErrors
)
{
    /// <summary>The lives at a value of the covariate.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The covariate is not finite.</exception>
    public WeibullLife At(double covariate = 0) =>
        new(Math.Exp(Intercept + ((Coefficient ?? 0) * Units.Finite.Required(covariate))), 1 / Scale);
}

/// <summary>
/// Weibull and exponential lives by maximum likelihood from deaths seen exactly, not yet, or between two looks
/// (accelerated failure time; Kalbfleisch and Prentice 1980, chapter 3), by Newton's method.
/// </summary>
public static class ParametricLives
{
    private const int MostSteps = 200;
    private const double Settled = 1e-9;

    // A logarithm known to no better than a factor of e to the thousandth is not settled.
    private const double MostVariance = 1e6;

    /// <summary>Fits the lives.</summary>
    /// <param name="windows">What is known of each death.</param>
    /// <param name="covariate">One finite number for each (0 and 1 for two groups), or none at all.</param>
    /// <param name="shape">Which shape.</param>
    /// <exception cref="ArgumentException">
    /// The lists differ in length, or the lives do not settle the parameters, as when none of a group has died.
    /// </exception>
    public static ParametricFit Fit(
        ReadOnlySpan<DeathWindow> windows,
        ReadOnlySpan<double> covariate,
        LifeShape shape
    )
    {
        if (!covariate.IsEmpty && covariate.Length != windows.Length)
        {
            throw new ArgumentException(
                "Every life needs its covariate, or none has one.",
                nameof(covariate)
            );
        }

        var likelihood = new ParametricLikelihood(windows, covariate, shape);
        var point = likelihood.Start();
        var (value, slope, curvature) = likelihood.At(point);
        for (var step = 0; step < MostSteps; step++)
        {
            if (!curvature.Enumerate().All(double.IsFinite) || !slope.All(double.IsFinite))
            {
                break;
            }

            var move = Positive(-curvature).Solve(slope);
            var gain = slope * move;
            var length = 1.0;
            var next = likelihood.At(point + move);
            while (!(next.Value > value) && length > 1e-10)
            {
                length /= 2;
                next = likelihood.At(point + (length * move));
            }

            if (!(next.Value > value))
            {
                // No step helps: this is the top as far as the digits go.
                return gain < Settled
                    ? Told(point, value, -curvature, likelihood)
                    : throw NotSettled(nameof(windows));
            }

            point += length * move;
            (value, slope, curvature) = next;
        }

        throw NotSettled(nameof(windows));
    }

    private static ArgumentException NotSettled(string name) =>
        new("The lives do not settle the parameters, as when none of a group has died.", name);

    private static ParametricFit Told(
        Vector<double> point,
        double value,
        Matrix<double> information,
        ParametricLikelihood likelihood
    )
    {
        var variances = information.Inverse().Diagonal();
        return variances.All(variance => variance is > 0 and < MostVariance)
            ? new(
                point[0],
                likelihood.HasCovariate ? point[1] : null,
                likelihood.ScaleOf(point),
                value,
                [.. variances.PointwiseSqrt()]
            )
            : throw NotSettled(nameof(likelihood));
    }

    // Far from the top the curvature may not bend down: then its diagonal is raised until it does.
    private static Matrix<double> Positive(Matrix<double> curvature)
    {
        var least = curvature.Evd(Symmetricity.Symmetric).EigenValues.Min(value => value.Real);
        var floor = 1e-6 * Math.Max(1, curvature.Diagonal().AbsoluteMaximum());
        return least >= floor
            ? curvature
            : curvature + ((floor - least) * Matrix<double>.Build.DenseIdentity(curvature.RowCount));
    }
}
