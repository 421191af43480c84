using Broodtide.Units;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Development.Staging;

/// <summary>Which share of ordered categories is modelled.</summary>
public enum OrdinalKind
{
    /// <summary>P(category at most j), with a threshold for each j (McCullagh 1980).</summary>
    Cumulative,

    /// <summary>P(category is j, given it is at least j): a chain of stops.</summary>
    Stopping,
}

/// <summary>One row of ordered counts with its covariates.</summary>
/// <param name="Covariates">One finite number for each covariate; 0 and 1 for the level of a factor.</param>
/// <param name="Counts">How many in each category, in order.</param>
public sealed record OrdinalRow(IReadOnlyList<double> Covariates, IReadOnlyList<int> Counts);

/// <summary>A fit of ordered categories: link(share) = threshold_j + sum of coefficient times covariate.</summary>
/// <param name="Thresholds">One fewer than categories.</param>
/// <param name="Coefficients">One for each covariate, the same for all thresholds.</param>
/// <param name="LogLikelihoodKernel">Sum of n ln p, nat.</param>
/// <param name="Deviance">Against a model that fits every row exactly.</param>
/// <param name="StandardErrors">Of the coefficients.</param>
public sealed record OrdinalFit(
    IReadOnlyList<double> Thresholds,
    IReadOnlyList<double> Coefficients,
    double LogLikelihoodKernel,
    double Deviance,
    IReadOnlyList<double> StandardErrors
);

/// <summary>Ordered categories by maximum likelihood, with covariates that shift all thresholds alike.</summary>
public static class OrdinalModel
{
    /// <summary>Fits thresholds and coefficients.</summary>
    /// <param name="rows">Rows with the same covariates and two or more categories, every one seen.</param>
    /// <param name="kind">Which share is modelled.</param>
    /// <param name="link">Its link.</param>
    /// <exception cref="ArgumentException">
    /// Rows that differ in length, a category never seen, or counts that do not settle the parameters.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A covariate is not finite, or a count negative.</exception>
    public static OrdinalFit Fit(
        IReadOnlyList<OrdinalRow> rows,
        OrdinalKind kind,
        StageLink link = StageLink.Logit
    )
    {
        Check(rows);
        var categories = rows[0].Counts.Count;
        var covariates = rows[0].Covariates.Count;
        var counts = rows.Select(row => row.Counts).ToArray();
        var found = MultinomialScoring.Maximise(
            counts,
            (point, row) =>
                kind == OrdinalKind.Cumulative
                    ? Cumulative(point, rows[row].Covariates, categories, link)
                    : Stopping(point, rows[row].Covariates, categories, link),
            Start(counts, kind, link, categories, covariates)
        );
        var thresholds = new double[categories - 1];
        for (var j = 0; j < thresholds.Length; j++)
        {
            thresholds[j] =
                j == 0 || kind == OrdinalKind.Stopping
                    ? found.Parameters[j]
                    : thresholds[j - 1] + Math.Exp(found.Parameters[j]);
        }

        return new(
            thresholds,
            [.. found.Parameters.SubVector(categories - 1, covariates)],
            found.LogLikelihood,
            MultinomialScoring.Deviance(counts, found.Shares),
            [.. found.Covariance.Diagonal().SubVector(categories - 1, covariates).PointwiseSqrt()]
        );
    }

    private static void Check(IReadOnlyList<OrdinalRow> rows)
    {
        if (
            rows.Count == 0
            || rows[0].Counts.Count < 2
            || rows[0].Covariates.Count == 0
            || rows.Any(row =>
                row.Counts.Count != rows[0].Counts.Count || row.Covariates.Count != rows[0].Covariates.Count
            )
            || Enumerable
                .Range(0, rows[0].Counts.Count)
                .Any(category => rows.All(row => row.Counts[category] == 0))
        )
        {
            throw new ArgumentException(
                "All rows need the same one or more covariates and two or more categories, each seen.",
                nameof(rows)
            );
        }

        foreach (var row in rows)
        {
            foreach (var covariate in row.Covariates)
            {
                Finite.Required(covariate, nameof(rows));
            }

            foreach (var count in row.Counts)
            {
                Finite.NotNegative(count, nameof(rows));
            }
        }
    }

    private static Vector<double> Start(
        IReadOnlyList<int>[] counts,
        OrdinalKind kind,
        StageLink link,
        int categories,
        int covariates
    )
    {
        var start = Vector<double>.Build.Dense(categories - 1 + covariates);
        var totals = Enumerable
            .Range(0, categories)
            .Select(category => counts.Sum(row => (double)row[category]))
            .ToArray();
        var before = 0.0;
        for (var j = 0; j + 1 < categories; j++)
        {
            var threshold = link.Inverse(
                kind == OrdinalKind.Cumulative
                    ? totals[..(j + 1)].Sum() / totals.Sum()
                    : totals[j] / totals[j..].Sum()
            );
            start[j] = j > 0 && kind == OrdinalKind.Cumulative ? Math.Log(threshold - before) : threshold;
            before = threshold;
        }

        return start;
    }

    private static double Shift(Vector<double> point, IReadOnlyList<double> covariates, int categories)
    {
        var shift = 0.0;
        for (var k = 0; k < covariates.Count; k++)
        {
            shift += point[categories - 1 + k] * covariates[k];
        }

        return shift;
    }

    private static CategoryShares Cumulative(
        Vector<double> point,
        IReadOnlyList<double> covariates,
        int categories,
        StageLink link
    )
    {
        var shares = new double[categories];
        var slopes = Matrix<double>.Build.Dense(categories, point.Count);
        var shift = Shift(point, covariates, categories);
        var threshold = 0.0;
        var before = double.NegativeInfinity;
        for (var j = 0; j < categories; j++)
        {
            if (j + 1 == categories)
            {
                shares[j] = link.Above(before);
                break;
            }

            threshold += j == 0 ? point[0] : Math.Exp(point[j]);
            var at = threshold + shift;
            shares[j] = link.Between(before, at);
            before = at;
            var density = link.Density(at);
            for (var k = 0; k < point.Count; k++)
            {
                var along =
                    k >= categories - 1 ? covariates[k - categories + 1]
                    : k == 0 ? 1
                    : k <= j ? Math.Exp(point[k])
                    : 0;
                slopes[j, k] += density * along;
                slopes[j + 1, k] -= density * along;
            }
        }

        return new(shares, slopes);
    }

    private static CategoryShares Stopping(
        Vector<double> point,
        IReadOnlyList<double> covariates,
        int categories,
        StageLink link
    )
    {
        var shares = new double[categories];
        var slopes = Matrix<double>.Build.Dense(categories, point.Count);
        var shift = Shift(point, covariates, categories);
        var reached = 1.0;
        var reachedSlope = Vector<double>.Build.Dense(point.Count);
        for (var j = 0; j + 1 < categories; j++)
        {
            var at = point[j] + shift;
            var stop = link.Below(at);
            var go = link.Above(at);
            var along = Vector<double>.Build.Dense(
                point.Count,
                k => k >= categories - 1 ? covariates[k - categories + 1] : (k == j ? 1 : 0)
            );
            var density = link.Density(at);
            shares[j] = reached * stop;
            slopes.SetRow(j, (reachedSlope * stop) + (reached * density * along));
            reachedSlope = (reachedSlope * go) - (reached * density * along);
            reached *= go;
        }

        shares[^1] = reached;
        slopes.SetRow(categories - 1, reachedSlope);
        return new(shares, slopes);
    }
}
