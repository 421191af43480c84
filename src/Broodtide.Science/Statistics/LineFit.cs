using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>A point of a line: where, what was found there, and how much it weighs.</summary>
/// <param name="X">Where.</param>
/// <param name="Y">What was found.</param>
/// <param name="Weight">Above 0: its variance is that of the residuals over the weight.</param>
public readonly record struct LinePoint(double X, double Y, double Weight = 1);

/// <summary>
/// A straight line by weighted least squares, and what the next point may be (Draper and Smith 1998, Applied Regression
/// Analysis, sections 1.4 and 3.2). With a slope that is given only the height is fitted.
/// </summary>
public sealed record LineFit
{
    private readonly double _meanX;
    private readonly double _weights;
    private readonly double _spreadX;

    private LineFit(IReadOnlyList<LinePoint> points, double? given)
    {
        if (points.Count < (given is null ? 3 : 2))
        {
            throw new ArgumentException("Too few points for a line and its residuals.", nameof(points));
        }

        foreach (var point in points)
        {
            Finite.Required(point.X, nameof(points));
            Finite.Required(point.Y, nameof(points));
            Finite.Positive(point.Weight, nameof(points));
        }

        _weights = points.Sum(point => point.Weight);
        _meanX = points.Sum(point => point.Weight * point.X) / _weights;
        var meanY = points.Sum(point => point.Weight * point.Y) / _weights;
        var spread = points.Sum(point => point.Weight * Math.Pow(point.X - _meanX, 2));
        if (given is null && spread <= 0)
        {
            throw new ArgumentException("All points lie at one place: no slope follows.", nameof(points));
        }

        Slope = given ?? points.Sum(point => point.Weight * (point.X - _meanX) * (point.Y - meanY)) / spread;
        Intercept = meanY - (Slope * _meanX);
        _spreadX = given is null ? spread : double.PositiveInfinity;
        DegreesOfFreedom = points.Count - (given is null ? 2 : 1);
        ResidualDeviation = Math.Sqrt(
            points.Sum(point => point.Weight * Math.Pow(point.Y - meanY - (Slope * (point.X - _meanX)), 2))
                / DegreesOfFreedom
        );
    }

    /// <summary>Height at X = 0.</summary>
    public double Intercept { get; }

    /// <summary>Rise of Y for one of X.</summary>
    public double Slope { get; }

    /// <summary>Standard error of <see cref="Intercept"/>.</summary>
    public double InterceptError => ErrorAt(0);

    /// <summary>Standard error of <see cref="Slope"/>; 0 where it was given.</summary>
    public double SlopeError => ResidualDeviation / Math.Sqrt(_spreadX);

    /// <summary>Standard deviation of a residual of weight 1.</summary>
    public double ResidualDeviation { get; }

    /// <summary>Points less what was fitted.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>The line.</summary>
    /// <param name="points">Three or more, not all at one X.</param>
    /// <exception cref="ArgumentException">Too few, or all at one X.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or a weight not positive.</exception>
    public static LineFit Of(IReadOnlyList<LinePoint> points) => new(points, null);

    /// <summary>The line of a given slope.</summary>
    /// <param name="points">Two or more.</param>
    /// <param name="slope">The slope.</param>
    /// <exception cref="ArgumentException">Too few.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or a weight not positive.</exception>
    public static LineFit WithSlope(IReadOnlyList<LinePoint> points, double slope) =>
        new(points, Finite.Required(slope));

    /// <summary>Standard error of the height of the line.</summary>
    public double ErrorAt(double x) =>
        ResidualDeviation * Math.Sqrt((1 / _weights) + (Math.Pow(x - _meanX, 2) / _spreadX));

    /// <summary>What the next point of a weight may be: 5, 50 and 95 %, by Student's t.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the weight not positive.</exception>
    public Interval Next(double x, double weight = 1)
    {
        var middle = Intercept + (Slope * Finite.Required(x));
        var deviation = Math.Sqrt(
            (ResidualDeviation * ResidualDeviation / Finite.Positive(weight)) + Math.Pow(ErrorAt(x), 2)
        );
        var reach = StudentT.InvCDF(0, 1, DegreesOfFreedom, 0.95) * deviation;
        return Interval.FromPoints(middle - reach, middle, middle + reach);
    }
}
