using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Statistics;

/// <summary>Where a log likelihood is greatest.</summary>
/// <param name="At">The parameters there.</param>
/// <param name="Value">The log likelihood there, nat.</param>
/// <param name="Information">Minus its second derivatives there.</param>
/// <param name="Converged">Whether the last step was within tolerance.</param>
internal sealed record MaximumFound(double[] At, double Value, Matrix<double> Information, bool Converged)
{
    /// <summary>Standard errors; none of a parameter about which the likelihood is flat.</summary>
    internal double?[] StandardErrors()
    {
        var covariance = Information.PseudoInverse();
        return
        [
            .. covariance.Diagonal().Select(variance => variance > 0 ? Math.Sqrt(variance) : (double?)null),
        ];
    }
}

/// <summary>
/// Greatest value of a smooth log likelihood of a few parameters: Newton steps by central differences, shortened
/// towards the gradient where they do not climb (Levenberg 1944, Quart. Appl. Math. 2:164).
/// </summary>
internal static class Maximum
{
    private const double FirstDifference = 1e-5;
    private const double SecondDifference = 2e-4;
    private const double LeastCurvature = 1e-8;
    private const double MostDamping = 1e12;
    private const double LongestStep = 3;

    /// <summary>Climbs from a start until a step is shorter than the tolerance relative to one plus the parameter.</summary>
    internal static MaximumFound Find(
        Func<double[], double> logLikelihood,
        double[] start,
        double tolerance = 1e-8,
        int steps = 200
    )
    {
        var at = (double[])start.Clone();
        var value = logLikelihood(at);
        var damping = 1e-3;
        var converged = false;
        for (var step = 0; step < steps && !converged; step++)
        {
            var gradient = Gradient(logLikelihood, at);
            var information = Information(logLikelihood, at, value);
            var climbed = false;
            while (!climbed && !converged && damping < MostDamping)
            {
                var move = Move(gradient, information, damping);
                var next = at.Zip(move, (x, dx) => x + dx).ToArray();
                var there = logLikelihood(next);
                converged = at.Zip(move)
                    .All(pair => Math.Abs(pair.Second) <= tolerance * (1 + Math.Abs(pair.First)));
                climbed = there > value;
                (at, value) = climbed ? (next, there) : (at, value);
                damping = climbed ? Math.Max(1e-12, damping / 10) : damping * 10;
            }

            if (!climbed)
            {
                break;
            }
        }

        return new(at, value, Information(logLikelihood, at, value), converged);
    }

    private static double[] Move(Vector<double> gradient, Matrix<double> information, double damping)
    {
        var damped = information.Clone();
        for (var i = 0; i < damped.RowCount; i++)
        {
            var curvature = Math.Abs(information[i, i]);
            damped[i, i] = Math.Max(information[i, i], 0) + (damping * Math.Max(curvature, LeastCurvature));
        }

        var move = damped.Solve(gradient);
        var uphill = move * gradient > 0 && move.All(double.IsFinite);
        var chosen = uphill ? move : gradient / Math.Max(1, damping);
        var longest = chosen.AbsoluteMaximum();
        return (longest > LongestStep ? chosen * (LongestStep / longest) : chosen).ToArray();
    }

    private static Vector<double> Gradient(Func<double[], double> f, double[] at) =>
        Vector<double>.Build.Dense(
            at.Length,
            i =>
            {
                var h = FirstDifference * Math.Max(1, Math.Abs(at[i]));
                return (f(Moved(at, i, h)) - f(Moved(at, i, -h))) / (2 * h);
            }
        );

    private static Matrix<double> Information(Func<double[], double> f, double[] at, double value)
    {
        var h = at.Select(x => SecondDifference * Math.Max(1, Math.Abs(x))).ToArray();
        var information = Matrix<double>.Build.Dense(at.Length, at.Length);
        for (var i = 0; i < at.Length; i++)
        {
            information[i, i] =
                -(f(Moved(at, i, h[i])) - (2 * value) + f(Moved(at, i, -h[i]))) / (h[i] * h[i]);
            for (var j = 0; j < i; j++)
            {
                var (up, down) = (Moved(at, i, h[i]), Moved(at, i, -h[i]));
                var mixed =
                    f(Moved(up, j, h[j]))
                    - f(Moved(up, j, -h[j]))
                    - f(Moved(down, j, h[j]))
                    + f(Moved(down, j, -h[j]));
                information[i, j] = information[j, i] = -mixed / (4 * h[i] * h[j]);
            }
        }

        return information;
    }

    private static double[] Moved(double[] at, int parameter, double by)
    {
        var moved = (double[])at.Clone();
        moved[parameter] += by;
        return moved;
    }
}
