using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Staging;

/// <summary>Why a keeper's own samples do not tell a boundary.</summary>
public enum StageDoubt
{
    /// <summary>Fewer than three samples at different thermal ages.</summary>
    TooFewSamples,

    /// <summary>All larvae were in one stage.</summary>
    OneStageOnly,

    /// <summary>
    /// No two samples show an earlier stage at a later age than a later one: how far larvae spread stays open.
    /// </summary>
    NoOverlap,

    /// <summary>No larva was seen at or before the stage that ends here.</summary>
    NoneBefore,

    /// <summary>No larva was seen beyond it.</summary>
    NoneBeyond,

    /// <summary>The stage on one side of it was never seen, so it cannot be told from its neighbour.</summary>
    StageNeverSeen,

    /// <summary>It was told, but so poorly that no interval is worth showing.</summary>
    TooWide,
}

/// <summary>What a keeper's samples tell of one boundary.</summary>
/// <param name="AfterStage">The stage that ends here, the first being 1.</param>
/// <param name="ThermalAge">Thermal age at which half have passed it, 5, 50 and 95 %; none where it is not told.</param>
/// <param name="Spread">Standard deviation of the passing between larvae, thermal age; none likewise.</param>
/// <param name="Doubt">Why it is not told.</param>
public sealed record OwnBoundary(int AfterStage, Interval? ThermalAge, Interval? Spread, StageDoubt? Doubt);

/// <summary>What a keeper's samples tell of all boundaries.</summary>
/// <param name="Boundaries">One fewer than stages, in order.</param>
/// <param name="Samples">Samples at different thermal ages.</param>
/// <param name="Larvae">Larvae looked at.</param>
/// <param name="Unevenness">
/// How much more the samples differ than larvae drawn one by one would, 1 or more; the intervals are widened by its
/// root.
/// </param>
/// <param name="Model">The fitted boundaries between the stages that were seen; none where nothing is told.</param>
/// <param name="SeenStages">Those stages, the first being 1.</param>
public sealed record OwnStagesTold(
    IReadOnlyList<OwnBoundary> Boundaries,
    int Samples,
    int Larvae,
    double Unevenness,
    StageBoundaries? Model,
    IReadOnlyList<int> SeenStages
)
{
    /// <summary>Whether any boundary is told.</summary>
    public bool TellsAnything => Boundaries.Any(boundary => boundary.ThermalAge is not null);
}

/// <summary>
/// Stage boundaries from a keeper's own samples: the fit of <see cref="StageFitting"/> with its spread in proportion
/// to thermal age, intervals from the expected information widened where samples differ more than single larvae
/// would. A boundary that the samples do not bracket is left open, with the reason.
/// </summary>
public static class OwnStages
{
    // Fewer leave nothing to judge the fit by.
    private const int FewestAges = 3;

    // A boundary known to no better than this share of itself, either way, is not told.
    private const double WidestShare = 1;

    // Cells in which fewer larvae are expected say next to nothing of unevenness until one is hit, and then too much.
    private const double FewestExpected = 0.5;

    // Standard deviation of the logistic distribution over its scale.
    private static readonly double LogisticSd = Math.PI / Math.Sqrt(3);

    /// <summary>What samples tell.</summary>
    /// <param name="samples">Samples of the same stages, in any order; none is allowed.</param>
    /// <param name="stages">Number of stages, two or more.</param>
    /// <exception cref="ArgumentException">A sample with another number of stages.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than two stages.</exception>
    public static OwnStagesTold Of(IReadOnlyList<StageSample> samples, int stages)
    {
        Finite.Within(stages, 2, int.MaxValue);
        if (samples.Any(sample => sample.Counts.Count != stages))
        {
            throw new ArgumentException("All samples need the same stages.", nameof(samples));
        }

        var ages = samples.Select(sample => sample.ThermalAge).Distinct().Count();
        var seen = Enumerable
            .Range(0, stages)
            .Where(stage => samples.Any(sample => sample.Counts[stage] > 0))
            .ToArray();
        OwnStagesTold Nothing(StageDoubt doubt) =>
            new(
                [
                    .. Enumerable
                        .Range(1, stages - 1)
                        .Select(after => new OwnBoundary(after, null, null, doubt)),
                ],
                ages,
                samples.Sum(sample => sample.Larvae),
                1,
                null,
                [.. seen.Select(stage => stage + 1)]
            );
        if (ages < FewestAges)
        {
            return Nothing(StageDoubt.TooFewSamples);
        }

        if (seen.Length < 2)
        {
            return Nothing(StageDoubt.OneStageOnly);
        }

        // In one order, so that the answer does not depend on the order of writing.
        StageSample[] kept =
        [
            .. samples
                .GroupBy(sample => sample.ThermalAge)
                .OrderBy(group => group.Key)
                .Select(group => new StageSample(
                    group.Key,
                    [.. seen.Select(stage => group.Sum(sample => sample.Counts[stage]))]
                )),
        ];
        return StageFitting.TryFit(kept, StageVariance.Proportional, StageLink.Logit) is { } fit
            ? Told(Nothing(StageDoubt.StageNeverSeen), fit, seen, kept)
            : Nothing(StageDoubt.NoOverlap);
    }

    private static OwnStagesTold Told(OwnStagesTold nothing, StageFit fit, int[] seen, StageSample[] samples)
    {
        var (unevenness, freedom) = Unevenness(fit.Boundaries, samples);
        // The factor is itself estimated from few samples: then Student's wider quantile in place of the normal one.
        var wider =
            unevenness > 1
                ? Math.Sqrt(unevenness)
                    * StudentT.InvCDF(0, 1, Math.Max(2, freedom), 0.95)
                    / Interval.StandardNormal95
                : 1;
        return nothing with
        {
            Unevenness = unevenness,
            Model = fit.Boundaries,
            Boundaries =
            [
                .. nothing.Boundaries.Select(boundary =>
                {
                    // The stages on its two sides, counted from zero.
                    var (before, beyond) = (boundary.AfterStage - 1, boundary.AfterStage);
                    var at = Array.IndexOf(seen, before);
                    return before < seen[0] ? boundary with { Doubt = StageDoubt.NoneBefore }
                        : beyond > seen[^1] ? boundary with { Doubt = StageDoubt.NoneBeyond }
                        : at < 0 || seen[at + 1] != beyond ? boundary
                        : Told(boundary, fit, at, wider);
                }),
            ],
        };
    }

    private static OwnBoundary Told(OwnBoundary boundary, StageFit fit, int at, double wider)
    {
        var cut = fit.Boundaries.CutPoints[at];
        var age = Interval.FromNormal(cut, fit.CutPointStandardErrors[at] * wider);
        if (cut <= 0 || age.Width > 2 * WidestShare * cut)
        {
            return boundary with { Doubt = StageDoubt.TooWide };
        }

        var sd = LogisticSd * fit.Boundaries.Scale(cut);
        var reach = Interval.StandardNormal95 * 0.5 * fit.LogVarianceStandardError * wider;
        return boundary with
        {
            ThermalAge = age.AtLeast(0),
            Spread = Interval.FromPoints(sd * Math.Exp(-reach), sd, sd * Math.Exp(reach)),
            Doubt = null,
        };
    }

    // Pearson's statistic over its expectation, over the cells that have something to say, parameters taken off.
    private static (double Factor, double Freedom) Unevenness(StageBoundaries model, StageSample[] samples)
    {
        var square = 0.0;
        var freedom = -(double)model.Stages;
        foreach (var sample in samples)
        {
            var shares = model.Shares(sample.ThermalAge);
            for (var j = 0; j < shares.Count; j++)
            {
                var expected = sample.Larvae * shares[j];
                if (expected >= FewestExpected)
                {
                    square += (sample.Counts[j] - expected) * (sample.Counts[j] - expected) / expected;
                    freedom += 1 - shares[j];
                }
            }
        }

        return freedom > 0 ? (Math.Max(1, square / freedom), freedom) : (1, 0);
    }
}
