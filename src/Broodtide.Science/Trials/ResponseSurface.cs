using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace Broodtide.Science.Trials;

/// <summary>One vessel that was tried: where, and how many of its larvae did what is wished.</summary>
/// <param name="First">The first thing that is varied, such as salinity.</param>
/// <param name="Second">The second, such as temperature; the same for all where only one is varied.</param>
/// <param name="Seen">How many did, of how many.</param>
public readonly record struct TriedPoint(double First, double Second, Tally Seen);

/// <summary>What is believed about a surface before anything is tried. Lengths and spreads are assumptions of whoever asks.</summary>
/// <param name="Share">The share expected everywhere, above 0 and below 1.</param>
/// <param name="Spread">Standard deviation of its log odds over the plane, above 0.</param>
/// <param name="FirstLength">How far the first must change for the odds to be another matter, above 0.</param>
/// <param name="SecondLength">The same of the second.</param>
/// <param name="VesselSpread">Standard deviation of the log odds between vessels treated alike, 0 or more.</param>
public sealed record SurfaceBelief(
    Probability Share,
    double Spread,
    double FirstLength,
    double SecondLength,
    double VesselSpread
);

/// <summary>
/// How the share that does what is wished hangs on two things that are varied: a Gaussian process on the log odds with a
/// squared exponential covariance (Rasmussen and Williams 2006, Gaussian Processes for Machine Learning, equations 2.25 and
/// 2.26). The log odds of a vessel are taken with half a larva added on each side (Haldane 1956; Anscombe 1956) and the
/// binomial error that goes with it, plus what vessels treated alike differ by.
/// </summary>
public sealed class ResponseSurface
{
    private readonly IReadOnlyList<TriedPoint> _tried;
    private readonly SurfaceBelief _belief;
    private readonly Cholesky<double>? _factor;
    private readonly Vector<double>? _weights;
    private readonly double _mean;

    private ResponseSurface(IReadOnlyList<TriedPoint> tried, SurfaceBelief belief)
    {
        (_tried, _belief) = (tried, belief);
        _mean = Math.Log(belief.Share.Value / belief.Share.Opposite);
        if (tried.Count == 0)
        {
            return;
        }

        var covariance = Matrix<double>.Build.Dense(
            tried.Count,
            tried.Count,
            (row, column) =>
                Covariance(tried[row].First, tried[row].Second, tried[column])
                + (row == column ? ErrorVariance(tried[row].Seen) : 0)
        );
        _factor = covariance.Cholesky();
        _weights = _factor.Solve(
            Vector<double>.Build.Dense(tried.Count, at => LogOdds(tried[at].Seen) - _mean)
        );
    }

    /// <summary>The best mean log odds at a point that was tried; none where none was.</summary>
    public double? BestTried =>
        _tried.Count == 0 ? null : _tried.Max(point => At(point.First, point.Second).Mean);

    /// <summary>The surface after some vessels were tried.</summary>
    /// <param name="tried">The vessels; may be none.</param>
    /// <param name="belief">What is believed beforehand.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or a spread or length not above 0.</exception>
    public static ResponseSurface Of(IReadOnlyList<TriedPoint> tried, SurfaceBelief belief)
    {
        Finite.Positive(belief.Spread, nameof(belief));
        Finite.Positive(belief.FirstLength, nameof(belief));
        Finite.Positive(belief.SecondLength, nameof(belief));
        Finite.NotNegative(belief.VesselSpread, nameof(belief));
        Finite.Within(belief.Share.Value, 1e-9, 1 - 1e-9, nameof(belief));
        foreach (var point in tried)
        {
            Finite.Required(point.First, nameof(tried));
            Finite.Required(point.Second, nameof(tried));
        }

        return new(tried, belief);
    }

    /// <summary>Mean and standard deviation of the log odds at a point, the vessel's own chance not counted.</summary>
    /// <param name="first">The first thing.</param>
    /// <param name="second">The second.</param>
    public (double Mean, double Deviation) At(double first, double second)
    {
        var prior = _belief.Spread * _belief.Spread;
        if (_factor is null)
        {
            return (_mean, _belief.Spread);
        }

        var towards = Vector<double>.Build.Dense(
            _tried.Count,
            at => Covariance(Finite.Required(first), Finite.Required(second), _tried[at])
        );
        var known = towards * _factor.Solve(towards);
        return (_mean + (towards * _weights!), Math.Sqrt(Math.Max(0, prior - known)));
    }

    /// <summary>The share at a point, 5, 50 and 95 %.</summary>
    public Interval ShareAt(double first, double second)
    {
        var (mean, deviation) = At(first, second);
        var odds = Interval.FromNormal(mean, deviation);
        return Interval.FromPoints(Share(odds.Low), Share(odds.Middle), Share(odds.High));
    }

    private static double Share(double logOdds) => 1 / (1 + Math.Exp(-logOdds));

    private static double LogOdds(Tally seen) =>
        Math.Log((seen.Happened + 0.5) / (seen.Trials - seen.Happened + 0.5));

    private double ErrorVariance(Tally seen) =>
        (1 / (seen.Happened + 0.5))
        + (1 / (seen.Trials - seen.Happened + 0.5))
        + (_belief.VesselSpread * _belief.VesselSpread);

    private double Covariance(double first, double second, TriedPoint other)
    {
        var across = (first - other.First) / _belief.FirstLength;
        var along = (second - other.Second) / _belief.SecondLength;
        return _belief.Spread * _belief.Spread * Math.Exp(-0.5 * ((across * across) + (along * along)));
    }
}
