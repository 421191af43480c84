using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Counting;

/// <summary>
/// What one container under one lamp teaches of the program's counts: the known number over the counted one on the
/// log scale. Of fewer than <see cref="LeastPoints"/> pictures nothing is fitted and the picture's own interval stands. Other
/// containers, lamps and ages of larvae have calibrations of their own.
/// </summary>
public sealed record CountCalibration
{
    /// <summary>The fewest pictures of numbers above 0 that make a calibration.</summary>
    public const int LeastPoints = 8;

    // The scatter of the logarithm of a count falls with the number until it is that of the pictures: variance s^2 (1 +
    // 10/number), an assumption; at 10 larvae twice that of many.
    private const double SmallNumber = 10;

    // Half a larva is added before the logarithm, so that none counted has one.
    private const double Half = 0.5;

    private readonly LineFit? _line;

    private CountCalibration(IReadOnlyList<CalibrationPoint> points)
    {
        var zeros = points.Where(point => point.Known == 0).ToList();
        FalseMarks = zeros.Count > 0 ? zeros.Average(point => point.Counted) : 0;
        var above = points.Where(point => point.Known > 0).ToList();
        Points = above.Count;
        Zeros = zeros.Count;
        LargestKnown = points.Count > 0 ? points.Max(point => point.Known) : 0;
        if (Points >= LeastPoints)
        {
            _line = Line([
                .. above.Select(point => new LinePoint(
                    Scale(point.Counted),
                    Math.Log(point.Known + Half),
                    Weight(point.Known)
                )),
            ]);
        }
    }

    /// <summary>Pictures of numbers above 0.</summary>
    public int Points { get; }

    /// <summary>Pictures without a larva.</summary>
    public int Zeros { get; }

    /// <summary>Mean number of marks where there is no larva; 0 where no such picture was taken.</summary>
    public double FalseMarks { get; }

    /// <summary>The largest number that was photographed.</summary>
    public double LargestKnown { get; }

    /// <summary>Whether the pictures make a calibration of their own.</summary>
    public bool IsOwn => _line is not null;

    /// <summary>Whether the share that is counted changes with the number, so that a slope was fitted too.</summary>
    public bool Bends => _line is { Slope: not 1 };

    /// <summary>Standard deviation of the logarithm of what was counted, for many larvae; none without a fit.</summary>
    public double? LogDeviation => _line?.ResidualDeviation;

    /// <summary>Reads the pictures of one container and lamp.</summary>
    public static CountCalibration Of(IReadOnlyList<CalibrationPoint> points) => new(points);

    /// <summary>Counted of each one there, at a count; none without a fit.</summary>
    /// <param name="counted">What the program counted, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public double? CountedOfEach(double counted) =>
        _line is null ? null : Finite.Positive(counted) / Math.Max(Half, Middle(counted));

    /// <summary>Relative standard error of <see cref="CountedOfEach"/>, shared by all counts; none without a fit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double? SharedError(double counted) => _line?.ErrorAt(Scale(Finite.NotNegative(counted)));

    /// <summary>
    /// The number behind a count. Outside the published range is what has no fit, and what lies above the largest number
    /// photographed.
    /// </summary>
    /// <param name="counted">What the program counted before anybody corrected it, 0 or more.</param>
    /// <param name="uncalibrated">The picture's own interval, which stands where there is no fit.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public Computed<Interval> Number(double counted, Interval uncalibrated)
    {
        Finite.NotNegative(counted);
        if (_line is null)
        {
            return new(uncalibrated, WithinPublishedRange: false);
        }

        var middle = Middle(counted);
        var next = _line.Next(Scale(counted), Weight(Math.Max(1, middle)));
        // At least one more or less: a picture cannot be surer than that.
        var low = Math.Clamp(Math.Exp(next.Low) - Half, 0, Math.Max(0, middle - 1));
        var high = Math.Max(Math.Exp(next.High) - Half, middle + 1);
        return new(Interval.FromPoints(low, middle, high), middle <= LargestKnown);
    }

    /// <summary>
    /// Why the number is not surer, as codes: calibration-too-small (points, least), calibration-without-empty,
    /// count-above-calibrated (largest), calibration-bends.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public IReadOnlyList<Remark> Remarks(double counted)
    {
        Finite.NotNegative(counted);
        var remarks = new List<Remark>();
        if (!IsOwn)
        {
            remarks.Add(
                new("calibration-too-small", new Argument("points", Points), new("least", LeastPoints))
            );
            return remarks;
        }

        if (Zeros == 0)
        {
            remarks.Add(new("calibration-without-empty"));
        }

        if (Bends)
        {
            remarks.Add(new("calibration-bends"));
        }

        if (Middle(counted) > LargestKnown)
        {
            remarks.Add(new("count-above-calibrated", new Argument("largest", LargestKnown)));
        }

        return remarks;
    }

    // Of slope 1, the same share of every number, unless the pictures speak against it at 5 %.
    private static LineFit Line(IReadOnlyList<LinePoint> points)
    {
        var even = LineFit.WithSlope(points, 1);
        if (points.Max(point => point.X) - points.Min(point => point.X) < Math.Log(2))
        {
            return even;
        }

        var bent = LineFit.Of(points);
        return
            Math.Abs(bent.Slope - 1) > StudentT.InvCDF(0, 1, bent.DegreesOfFreedom, 0.975) * bent.SlopeError
            ? bent
            : even;
    }

    private double Middle(double counted) =>
        Math.Max(0, Math.Exp(_line!.Intercept + (_line.Slope * Scale(counted))) - Half);

    private double Scale(double counted) => Math.Log(Math.Max(0, counted - FalseMarks) + Half);

    private static double Weight(double number) => number / (number + SmallNumber);
}
