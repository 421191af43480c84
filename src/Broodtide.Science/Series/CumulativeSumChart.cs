using Broodtide.Units;

namespace Broodtide.Science.Series;

/// <summary>What has piled up above and below the target, each at least 0, in the unit of the readings.</summary>
/// <param name="High">Above.</param>
/// <param name="Low">Below.</param>
public readonly record struct CumulativeSums(double High, double Low);

/// <summary>
/// Sums of what readings exceed their target by, on each side, less a slack that lets chance run off (Page 1954,
/// Biometrika 41:100; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3). A lasting shift of about twice the slack
/// is found soonest.
/// </summary>
public sealed record CumulativeSumChart
{
    /// <summary>A chart.</summary>
    /// <param name="target">What the readings are about while nothing changes.</param>
    /// <param name="slack">What is forgiven of each reading, not below 0; half the shift to be found is usual.</param>
    /// <param name="threshold">A sum above this is a signal, above 0; 4 to 5 standard deviations of a reading is usual.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public CumulativeSumChart(double target, double slack, double threshold)
    {
        Target = Finite.Required(target);
        Slack = Finite.NotNegative(slack);
        Threshold = Finite.Positive(threshold);
    }

    /// <summary>What the readings are about while nothing changes.</summary>
    public double Target { get; }

    /// <summary>What is forgiven of each reading.</summary>
    public double Slack { get; }

    /// <summary>A sum above this is a signal.</summary>
    public double Threshold { get; }

    /// <summary>The sums after one more reading.</summary>
    /// <param name="sums">The sums before; the default at the start.</param>
    /// <param name="reading">The reading.</param>
    public CumulativeSums Next(CumulativeSums sums, double reading)
    {
        var above = Finite.Required(reading) - Target;
        return new(Math.Max(0, sums.High + above - Slack), Math.Max(0, sums.Low - above - Slack));
    }

    /// <summary>The sums after each reading, from nothing.</summary>
    public CumulativeSums[] Of(ReadOnlySpan<double> readings)
    {
        var all = new CumulativeSums[readings.Length];
        var sums = default(CumulativeSums);
        for (var i = 0; i < readings.Length; i++)
        {
            sums = Next(sums, readings[i]);
            all[i] = sums;
        }

        return all;
    }

    /// <summary>Whether a sum of either side is a signal.</summary>
    public bool IsSignal(CumulativeSums sums) => sums.High > Threshold || sums.Low > Threshold;

    /// <summary>Place of the first reading, from 0, that is a signal on either side; none if there is none.</summary>
    public int? FirstSignal(ReadOnlySpan<double> readings)
    {
        var sums = default(CumulativeSums);
        for (var i = 0; i < readings.Length; i++)
        {
            sums = Next(sums, readings[i]);
            if (IsSignal(sums))
            {
                return i;
            }
        }

        return null;
    }
}
