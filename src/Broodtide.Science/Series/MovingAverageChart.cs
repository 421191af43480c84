using Broodtide.Units;

namespace Broodtide.Science.Series;

/// <summary>
/// An average that forgets: z = weight times the reading plus the rest times the z before, with the limits it keeps while
/// nothing changes (Roberts 1959, Technometrics 1:239; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4). It sees
/// small steps and slow drifts sooner than single readings do. Readings must scatter independently about the centre.
/// </summary>
public sealed record MovingAverageChart
{
    /// <summary>A chart.</summary>
    /// <param name="centre">What the readings are about while nothing changes; the average starts here.</param>
    /// <param name="deviation">Standard deviation of one reading, above 0, in the unit of the readings.</param>
    /// <param name="weight">Weight of the newest reading, above 0, at most 1; 0.2 to 0.3 is usual.</param>
    /// <param name="width">How many standard deviations of the average the limits lie from the centre, above 0; 3 is usual.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public MovingAverageChart(double centre, double deviation, double weight, double width)
    {
        Centre = Finite.Required(centre);
        Deviation = Finite.Positive(deviation);
        Weight = Finite.Within(weight, double.Epsilon, 1);
        Width = Finite.Positive(width);
    }

    /// <summary>Where the average starts.</summary>
    public double Centre { get; }

    /// <summary>Standard deviation of one reading.</summary>
    public double Deviation { get; }

    /// <summary>Weight of the newest reading.</summary>
    public double Weight { get; }

    /// <summary>Distance of the limits in standard deviations of the average.</summary>
    public double Width { get; }

    /// <summary>The average after one more reading.</summary>
    /// <param name="average">The average before.</param>
    /// <param name="reading">The reading.</param>
    public double Next(double average, double reading) =>
        (Weight * Finite.Required(reading)) + ((1 - Weight) * Finite.Required(average));

    /// <summary>The average after each reading.</summary>
    public double[] Of(ReadOnlySpan<double> readings)
    {
        var averages = new double[readings.Length];
        var average = Centre;
        for (var i = 0; i < readings.Length; i++)
        {
            average = Next(average, readings[i]);
            averages[i] = average;
        }

        return averages;
    }

    /// <summary>Where the average stays while nothing changes.</summary>
    /// <param name="readings">How many readings it has seen, at least 1; none for a chart that has run for long.</param>
    /// <returns>The lower and the upper limit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one reading.</exception>
    public (double Lower, double Upper) Limits(int? readings = null)
    {
        if (readings is { } count)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(count, 1, nameof(readings));
        }

        var seen = readings is { } number ? 1 - Math.Pow(1 - Weight, 2.0 * number) : 1;
        var reach = Width * Deviation * Math.Sqrt(Weight / (2 - Weight) * seen);
        return (Centre - reach, Centre + reach);
    }

    /// <summary>Place of the first reading, from 0, after which the average lies outside its limits; none if it never does.</summary>
    public int? FirstSignal(ReadOnlySpan<double> readings)
    {
        var average = Centre;
        for (var i = 0; i < readings.Length; i++)
        {
            average = Next(average, readings[i]);
            var (lower, upper) = Limits(i + 1);
            if (average < lower || average > upper)
            {
                return i;
            }
        }

        return null;
    }
}
