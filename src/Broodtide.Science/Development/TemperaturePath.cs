using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Development;

/// <summary>
/// The temperature that followed the animal, day by day, with its uncertainty: a Gaussian process with an unknown
/// level and an exponentially forgetting wander, given the readings. (Standard regression with a Gaussian process:
/// Rasmussen and Williams 2006, eq. 2.25 and 2.26.) Whatever is left uncertain is taken as one persistent error.
/// </summary>
internal sealed class TemperaturePath
{
    private readonly double _start;
    private readonly double[] _mean;
    private readonly double[] _sd;

    private TemperaturePath(double start, double[] mean, double[] sd)
    {
        _start = start;
        _mean = mean;
        _sd = sd;
    }

    /// <summary>The path on whole days from <paramref name="start"/>; readings of one day are averaged.</summary>
    internal static TemperaturePath Over(
        IReadOnlyList<FollowedTemperature> readings,
        TemperatureAssumption assumption,
        double start,
        int days
    )
    {
        var level = assumption.Mean.Celsius;
        var levelVariance = Square(assumption.Sd.Celsius);
        var wanderVariance = Square(assumption.Wander.Celsius);
        var shared = Square(assumption.SharedError.Celsius);
        var mean = new double[days + 1];
        var sd = new double[days + 1];
        var daily = Daily(readings, assumption);
        if (daily.Length == 0)
        {
            Array.Fill(mean, level);
            Array.Fill(sd, Math.Sqrt(levelVariance + wanderVariance));
            return new(start, mean, sd);
        }

        double Covariance(double a, double b) =>
            levelVariance + (wanderVariance * Math.Exp(-Math.Abs(a - b) / assumption.WanderDays));
        var count = daily.Length;
        var inverse = Matrix<double>
            .Build.Dense(
                count,
                count,
                (i, j) => Covariance(daily[i].Day, daily[j].Day) + (i == j ? daily[i].Variance : 0)
            )
            .Cholesky()
            .Solve(Matrix<double>.Build.DenseIdentity(count));
        var weights = inverse * Vector<double>.Build.Dense(count, i => daily[i].Celsius - level);
        for (var day = 0; day <= days; day++)
        {
            var towards = Vector<double>.Build.Dense(count, i => Covariance(start + day, daily[i].Day));
            mean[day] = level + (towards * weights);
            var left = levelVariance + wanderVariance - (towards * (inverse * towards));
            sd[day] = Math.Sqrt(Math.Max(0, left) + shared);
        }

        return new(start, mean, sd);
    }

    /// <summary>degC at a day if the error is <paramref name="z"/> standard deviations; held beyond the ends.</summary>
    internal double At(double day, double z)
    {
        var place = Math.Clamp(day - _start, 0, _mean.Length - 1);
        var index = Math.Min((int)place, _mean.Length - 2);
        var share = place - index;
        return ((1 - share) * (_mean[index] + (z * _sd[index])))
            + (share * (_mean[index + 1] + (z * _sd[index + 1])));
    }

    /// <summary>Whether no error at all is left.</summary>
    internal bool IsCertain => Array.TrueForAll(_sd, sd => sd <= 0);

    /// <summary>Standard deviation of the temperature at a day, degC.</summary>
    internal double SdAt(double day) => At(day, 1) - At(day, 0);

    private static (double Day, double Celsius, double Variance)[] Daily(
        IReadOnlyList<FollowedTemperature> readings,
        TemperatureAssumption assumption
    ) =>
        [
            .. readings
                .GroupBy(reading => Math.Floor(reading.Day))
                .OrderBy(group => group.Key)
                .Select(group =>
                {
                    // Summed in one order, whatever order they came in.
                    var ordered = group
                        .OrderBy(r => r.Day)
                        .ThenBy(r => r.Temperature.Celsius)
                        .ThenBy(r => r.Error.Celsius)
                        .ToArray();
                    var within = Square(assumption.WithinDay.Celsius);
                    // The hundredth of a degree keeps the matrix regular where no error at all is admitted.
                    var variance = ordered.Average(r => Square(r.Error.Celsius) + within) + 1e-4;
                    return (
                        ordered.Average(r => r.Day),
                        ordered.Average(r => r.Temperature.Celsius),
                        variance / ordered.Length
                    );
                }),
        ];

    private static double Square(double value) => value * value;
}
