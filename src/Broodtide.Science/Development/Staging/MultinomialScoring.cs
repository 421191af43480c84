using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Development.Staging;

/// <summary>Shares of the categories of one row, and their derivatives: one row a category, one column a parameter.</summary>
internal sealed record CategoryShares(double[] Shares, Matrix<double> Slopes);

/// <summary>Where the likelihood is greatest.</summary>
/// <param name="Parameters">The parameters.</param>
/// <param name="LogLikelihood">Sum of n ln p, in nat.</param>
/// <param name="Covariance">Inverse of the expected information.</param>
/// <param name="Shares">The shares of each row.</param>
internal sealed record ScoringResult(
    Vector<double> Parameters,
    double LogLikelihood,
    Matrix<double> Covariance,
    IReadOnlyList<double[]> Shares
);

/// <summary>
/// Multinomial maximum likelihood by Fisher scoring with halved steps (Rao 1973, section 5g): needs only first
/// derivatives of the shares, whatever the model.
/// </summary>
internal static class MultinomialScoring
{
    private const int MostSteps = 500;
    private const double Settled = 1e-14;

    /// <exception cref="ArgumentException">The counts do not settle the parameters.</exception>
    internal static ScoringResult Maximise(
        IReadOnlyList<IReadOnlyList<int>> counts,
        Func<Vector<double>, int, CategoryShares> model,
        Vector<double> start
    ) =>
        TryMaximise(counts, model, start)
        ?? throw new ArgumentException(
            "The counts do not settle the parameters, as when stages do not overlap in time.",
            nameof(counts)
        );

    /// <summary>The same; none where the counts do not settle the parameters.</summary>
    internal static ScoringResult? TryMaximise(
        IReadOnlyList<IReadOnlyList<int>> counts,
        Func<Vector<double>, int, CategoryShares> model,
        Vector<double> start
    )
    {
        var point = start;
        var now = Likelihood.At(counts, model, point);
        for (var step = 0; step < MostSteps; step++)
        {
            var move = now.Information.Solve(now.Slope);
            if (!move.All(double.IsFinite) || !double.IsFinite(now.Value))
            {
                break;
            }

            var gain = now.Slope * move;
            if (gain < Settled * (1 + Math.Abs(now.Value)))
            {
                return new(point, now.Value, now.Information.Inverse(), now.Shares);
            }

            var length = 1.0;
            var next = Likelihood.At(counts, model, point + move);
            while (!(next.Value > now.Value) && length > 1e-9)
            {
                length /= 2;
                next = Likelihood.At(counts, model, point + (length * move));
            }

            if (!(next.Value > now.Value))
            {
                // No step helps: this is the top as far as the digits go.
                return gain < 1e-8 ? new(point, now.Value, now.Information.Inverse(), now.Shares) : null;
            }

            point += length * move;
            now = next;
        }

        return null;
    }

    /// <summary>2 sum n ln(n / expected), against a model that fits every row.</summary>
    internal static double Deviance(IReadOnlyList<IReadOnlyList<int>> counts, IReadOnlyList<double[]> shares)
    {
        var sum = 0.0;
        for (var i = 0; i < counts.Count; i++)
        {
            double all = counts[i].Sum();
            for (var j = 0; j < counts[i].Count; j++)
            {
                sum += counts[i][j] > 0 ? counts[i][j] * Math.Log(counts[i][j] / all / shares[i][j]) : 0;
            }
        }

        return 2 * sum;
    }

    private sealed record Likelihood(
        double Value,
        Vector<double> Slope,
        Matrix<double> Information,
        IReadOnlyList<double[]> Shares
    )
    {
        internal static Likelihood At(
            IReadOnlyList<IReadOnlyList<int>> counts,
            Func<Vector<double>, int, CategoryShares> model,
            Vector<double> point
        )
        {
            var value = 0.0;
            var slope = Vector<double>.Build.Dense(point.Count);
            var information = Matrix<double>.Build.Dense(point.Count, point.Count);
            var rows = new double[counts.Count][];
            for (var i = 0; i < counts.Count; i++)
            {
                var (shares, slopes) = model(point, i);
                rows[i] = shares;
                double all = counts[i].Sum();
                for (var j = 0; j < shares.Length; j++)
                {
                    if (shares[j] > 1e-290)
                    {
                        var along = slopes.Row(j);
                        value += counts[i][j] * Math.Log(shares[j]);
                        slope.Add(counts[i][j] / shares[j] * along, slope);
                        information.Add(all / shares[j] * along.OuterProduct(along), information);
                    }
                    else if (counts[i][j] > 0)
                    {
                        value = double.NegativeInfinity;
                    }
                }
            }

            return new(value, slope, information, rows);
        }
    }
}
