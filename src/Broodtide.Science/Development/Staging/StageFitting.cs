using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Development.Staging;

/// <summary>A fit of stage boundaries.</summary>
/// <param name="Boundaries">Where the likelihood is greatest.</param>
/// <param name="LogLikelihoodKernel">Sum of n ln p, nat.</param>
/// <param name="LogLikelihood">The same with the multinomial coefficients, nat.</param>
/// <param name="Deviance">Against a model that fits every sample exactly.</param>
/// <param name="PearsonChiSquare">Sum of (n - expected)^2 / expected.</param>
/// <param name="DegreesOfFreedom">Free counts less parameters.</param>
/// <param name="CutPointStandardErrors">Of the cut points, multinomial, in the unit of thermal age.</param>
/// <param name="LogVarianceStandardError">Of the logarithm of the variance factor.</param>
public sealed record StageFit(
    StageBoundaries Boundaries,
    double LogLikelihoodKernel,
    double LogLikelihood,
    double Deviance,
    double PearsonChiSquare,
    int DegreesOfFreedom,
    IReadOnlyList<double> CutPointStandardErrors,
    double LogVarianceStandardError
);

/// <summary>
/// Stage boundaries by multinomial maximum likelihood, on the first cut point, the logarithms of the gaps and the
/// logarithm of the variance factor (Dennis, Kemp and Beckwith 1986; refitted by Boersch-Supan 2021, ReScience C
/// 7(1)).
/// </summary>
public static class StageFitting
{
    /// <summary>Fits the boundaries.</summary>
    /// <param name="samples">Samples of the same stages; every stage seen at least once.</param>
    /// <param name="variance">How the spread grows.</param>
    /// <param name="link">The distribution.</param>
    /// <exception cref="ArgumentException">
    /// Samples with different stages, a stage never seen, or stages that do not overlap in time.
    /// </exception>
    public static StageFit Fit(
        IReadOnlyList<StageSample> samples,
        StageVariance variance = StageVariance.Proportional,
        StageLink link = StageLink.Logit
    ) =>
        TryFit(samples, variance, link)
        ?? throw new ArgumentException("The stages do not overlap in time.", nameof(samples));

    /// <summary>The same; none where the stages do not overlap in time.</summary>
    internal static StageFit? TryFit(
        IReadOnlyList<StageSample> samples,
        StageVariance variance,
        StageLink link
    )
    {
        var stages = samples.Count > 0 ? samples[0].Counts.Count : 0;
        if (
            stages == 0
            || samples.Any(sample => sample.Counts.Count != stages)
            || Enumerable.Range(0, stages).Any(stage => samples.All(sample => sample.Counts[stage] == 0))
        )
        {
            throw new ArgumentException(
                "All samples need the same stages, and every stage must have been seen.",
                nameof(samples)
            );
        }

        if (!Overlaps(samples))
        {
            return null;
        }

        var counts = samples.Select(sample => sample.Counts).ToArray();
        var found = MultinomialScoring.TryMaximise(
            counts,
            (point, row) => Shares(point, samples[row].ThermalAge, variance, link),
            Start(samples, stages, variance)
        );
        if (found is null)
        {
            return null;
        }

        var gradient = CutPointSlopes(found.Parameters);
        var covariance = gradient * found.Covariance * gradient.Transpose();
        var last = found.Parameters.Count - 1;
        return new(
            new(CutPoints(found.Parameters), Math.Exp(found.Parameters[last]), variance, link),
            found.LogLikelihood,
            found.LogLikelihood + counts.Sum(Coefficient),
            MultinomialScoring.Deviance(counts, found.Shares),
            Pearson(counts, found.Shares),
            (samples.Count * (stages - 1)) - found.Parameters.Count,
            [.. covariance.Diagonal().PointwiseSqrt()],
            Math.Sqrt(found.Covariance[last, last])
        );
    }

    // Whether at some boundary a larva was seen before it at a later age than one beyond it. Without that the
    // likelihood grows for ever as the spread shrinks.
    private static bool Overlaps(IReadOnlyList<StageSample> samples)
    {
        for (var cut = 1; cut < samples[0].Counts.Count; cut++)
        {
            var lastBefore = samples
                .Where(sample => sample.Counts.Take(cut).Sum() > 0)
                .Max(sample => sample.ThermalAge);
            var firstBeyond = samples
                .Where(sample => sample.Counts.Skip(cut).Sum() > 0)
                .Min(sample => sample.ThermalAge);
            if (lastBefore > firstBeyond)
            {
                return true;
            }
        }

        return false;
    }

    private static double[] CutPoints(Vector<double> point)
    {
        var cuts = new double[point.Count - 1];
        for (var j = 0; j < cuts.Length; j++)
        {
            cuts[j] = j == 0 ? point[0] : cuts[j - 1] + Math.Exp(point[j]);
        }

        return cuts;
    }

    // Derivatives of the cut points (rows) by the parameters (columns).
    private static Matrix<double> CutPointSlopes(Vector<double> point) =>
        Matrix<double>.Build.Dense(
            point.Count - 1,
            point.Count,
            (j, k) =>
                k > j || k == point.Count - 1 ? 0
                : k == 0 ? 1
                : Math.Exp(point[k])
        );

    private static CategoryShares Shares(
        Vector<double> point,
        double age,
        StageVariance variance,
        StageLink link
    )
    {
        var cuts = CutPoints(point);
        var scale = Math.Exp(0.5 * point[^1]) * (variance == StageVariance.Proportional ? Math.Sqrt(age) : 1);
        var byCut = CutPointSlopes(point);
        var shares = new double[cuts.Length + 1];
        var slopes = Matrix<double>.Build.Dense(shares.Length, point.Count);
        var before = double.NegativeInfinity;
        for (var j = 0; j < shares.Length; j++)
        {
            var distance = j < cuts.Length ? (cuts[j] - age) / scale : double.PositiveInfinity;
            shares[j] = link.Between(before, distance);
            before = distance;
            if (j < cuts.Length)
            {
                var density = link.Density(distance);
                var along = density / scale * byCut.Row(j);
                along[^1] = -0.5 * density * distance;
                slopes.SetRow(j, slopes.Row(j) + along);
                slopes.SetRow(j + 1, -along);
            }
        }

        return new(shares, slopes);
    }

    // Each cut point from the area under the share that has not passed it (Spearman and Karber), and a wide spread.
    private static Vector<double> Start(
        IReadOnlyList<StageSample> samples,
        int stages,
        StageVariance variance
    )
    {
        var ages = samples
            .GroupBy(sample => sample.ThermalAge)
            .OrderBy(group => group.Key)
            .Select(group =>
                (
                    Age: group.Key,
                    Counts: Enumerable
                        .Range(0, stages)
                        .Select(stage => (double)group.Sum(sample => sample.Counts[stage]))
                        .ToArray()
                )
            )
            .ToArray();
        var range = Math.Max(ages[^1].Age - ages[0].Age, 0.1 * ages[0].Age);
        var start = Vector<double>.Build.Dense(stages);
        var before = 0.0;
        for (var j = 0; j + 1 < stages; j++)
        {
            double Below(int i) => ages[i].Counts[..(j + 1)].Sum() / ages[i].Counts.Sum();
            var cut = ages[0].Age;
            for (var i = 1; i < ages.Length; i++)
            {
                cut += 0.5 * (Below(i) + Below(i - 1)) * (ages[i].Age - ages[i - 1].Age);
            }

            start[j] = j == 0 ? cut : Math.Log(Math.Max(cut - before, 0.01 * range));
            before = j == 0 ? cut : before + Math.Exp(start[j]);
        }

        var spread = range / 8;
        start[stages - 1] = Math.Log(
            spread * spread / (variance == StageVariance.Proportional ? ages.Average(a => a.Age) : 1)
        );
        return start;
    }

    private static double Coefficient(IReadOnlyList<int> counts) =>
        SpecialFunctions.FactorialLn(counts.Sum()) - counts.Sum(SpecialFunctions.FactorialLn);

    private static double Pearson(IReadOnlyList<int>[] counts, IReadOnlyList<double[]> shares)
    {
        var sum = 0.0;
        for (var i = 0; i < counts.Length; i++)
        {
            double all = counts[i].Sum();
            for (var j = 0; j < counts[i].Count; j++)
            {
                var expected = all * shares[i][j];
                sum += expected > 0 ? (counts[i][j] - expected) * (counts[i][j] - expected) / expected : 0;
            }
        }

        return sum;
    }
}
