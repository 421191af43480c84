using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Comparing;

/// <summary>
/// How a share hangs on a dose, by a straight line in a link, and at which dose it reaches a value (Finney 1971, Probit
/// Analysis; limits by Fieller 1954, J. R. Stat. Soc. B 16:175).
/// </summary>
public sealed class DoseResponse
{
    private readonly BinomialLink _link;
    private readonly double _intercept;
    private readonly double _slope;
    private readonly Matrix<double> _covariance;

    private DoseResponse(
        BinomialLink link,
        BinomialFit fit,
        RegressionDesign design,
        IReadOnlyList<Tally> tallies
    )
    {
        (_link, Fit) = (link, fit);
        _intercept = fit.Coefficients[0].Estimate;
        _slope = fit.Coefficients[1].Estimate;
        _covariance = BinomialRegression.Covariance(tallies, design, link, fit);
    }

    /// <summary>The whole fit; its coefficients are <c>intercept</c> and <c>slope</c>.</summary>
    public BinomialFit Fit { get; }

    /// <summary>Fits a line.</summary>
    /// <param name="doses">Dose of each row, on the scale on which the line is straight.</param>
    /// <param name="tallies">How many responded.</param>
    /// <param name="link">How the share hangs on the line.</param>
    /// <exception cref="ArgumentException">Rows differ, or all doses are one.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A dose is not finite.</exception>
    public static DoseResponse Of(
        IReadOnlyList<double> doses,
        IReadOnlyList<Tally> tallies,
        BinomialLink link = BinomialLink.Logit
    )
    {
        var design = RegressionDesign.OneMean(Math.Max(1, tallies.Count)).With("slope", doses);
        return new(link, BinomialRegression.Fit(tallies, design, link), design, tallies);
    }

    /// <summary>The share that responds at a dose.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public double ShareAt(double dose) => _link.Inverse(_intercept + (_slope * Finite.Required(dose)));

    /// <summary>The dose at which a share responds.</summary>
    /// <param name="share">Above 0 and below 1.</param>
    public double DoseAt(Probability share) => (_link.Line(share.Value) - _intercept) / _slope;

    /// <summary>Standard error of <see cref="DoseAt"/> from the slopes of its formula.</summary>
    /// <param name="share">Above 0 and below 1.</param>
    public double DoseErrorAt(Probability share)
    {
        var dose = DoseAt(share);
        return Math.Sqrt(
                _covariance[0, 0] + (2 * dose * _covariance[0, 1]) + (dose * dose * _covariance[1, 1])
            ) / Math.Abs(_slope);
    }

    /// <summary>
    /// Limits of the dose at which a share responds; none where the slope could be 0 at that level, for then any dose will
    /// do.
    /// </summary>
    /// <param name="share">Above 0 and below 1.</param>
    /// <param name="level">How sure, above 0 and below 1.</param>
    public Limits? DoseWithin(Probability share, Probability level)
    {
        var z = Normal.InvCDF(0, 1, 1 - Limits.Tail(level));
        var g = z * z * _covariance[1, 1] / (_slope * _slope);
        if (g >= 1)
        {
            return null;
        }

        var dose = DoseAt(share);
        var (va, vab, vb) = (_covariance[0, 0], _covariance[0, 1], _covariance[1, 1]);
        var middle = dose + (g / (1 - g) * (dose + (vab / vb)));
        var inside = va + (2 * dose * vab) + (dose * dose * vb) - (g * (va - (vab * vab / vb)));
        var reach = z / (Math.Abs(_slope) * (1 - g)) * Math.Sqrt(Math.Max(0, inside));
        return new(middle - reach, middle + reach, level);
    }
}
