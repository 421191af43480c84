using Broodtide.Units;

namespace Broodtide.Science.Development.Staging;

/// <summary>How the spread of development grows with thermal age.</summary>
public enum StageVariance
{
    /// <summary>In proportion to thermal age (Dennis, Kemp and Beckwith 1986).</summary>
    Proportional,

    /// <summary>Not at all.</summary>
    Constant,
}

/// <summary>
/// Shares of the stages by thermal age (Dennis, Kemp and Beckwith 1986, Environ. Entomol. 15:540):
/// P(stage at most j at t) = F((a_j - t) / sqrt(b2 t)), or over sqrt(b2) where the variance is constant.
/// </summary>
public sealed record StageBoundaries
{
    /// <summary>By the parameters.</summary>
    /// <param name="cutPoints">Thermal ages at which half have left each stage, ascending, one fewer than stages.</param>
    /// <param name="varianceFactor">b2, above zero, in the unit of thermal age (squared if constant).</param>
    /// <param name="variance">How the spread grows.</param>
    /// <param name="link">The distribution F.</param>
    /// <exception cref="ArgumentException">No cut point.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, not ascending, or not positive.</exception>
    public StageBoundaries(
        IReadOnlyList<double> cutPoints,
        double varianceFactor,
        StageVariance variance = StageVariance.Proportional,
        StageLink link = StageLink.Logit
    )
    {
        if (cutPoints.Count == 0)
        {
            throw new ArgumentException("Two stages have a boundary.", nameof(cutPoints));
        }

        for (var j = 0; j < cutPoints.Count; j++)
        {
            Finite.Within(
                cutPoints[j],
                j == 0 ? double.MinValue : cutPoints[j - 1],
                double.MaxValue,
                nameof(cutPoints)
            );
        }

        CutPoints = [.. cutPoints];
        VarianceFactor = Finite.Positive(varianceFactor);
        Variance = variance;
        Link = link;
    }

    /// <summary>Thermal ages at which half have left each stage.</summary>
    public IReadOnlyList<double> CutPoints { get; }

    /// <summary>b2.</summary>
    public double VarianceFactor { get; }

    /// <summary>How the spread grows.</summary>
    public StageVariance Variance { get; }

    /// <summary>The distribution.</summary>
    public StageLink Link { get; }

    /// <summary>Stages: one more than boundaries.</summary>
    public int Stages => CutPoints.Count + 1;

    /// <summary>Share of every stage at a thermal age, together 1.</summary>
    /// <param name="thermalAge">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public IReadOnlyList<double> Shares(double thermalAge)
    {
        var scale = Scale(Finite.Positive(thermalAge));
        var shares = new double[Stages];
        var before = double.NegativeInfinity;
        for (var j = 0; j < shares.Length; j++)
        {
            var distance =
                j < CutPoints.Count ? (CutPoints[j] - thermalAge) / scale : double.PositiveInfinity;
            shares[j] = Link.Between(before, distance);
            before = distance;
        }

        return shares;
    }

    /// <summary>Thermal age by which a share has gone beyond a boundary.</summary>
    /// <param name="boundary">The boundary, the first being 0.</param>
    /// <param name="beyond">Share beyond it, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such boundary, or a share of 0 or 1.</exception>
    public double ThermalAgeWhen(int boundary, Probability beyond)
    {
        var cut = CutPoints[(int)Finite.Within(boundary, 0, CutPoints.Count - 1)];
        var reach = -Link.Inverse(beyond.Opposite) * Math.Sqrt(VarianceFactor);
        if (Variance == StageVariance.Constant)
        {
            return cut + reach;
        }

        // t - reach sqrt(t) - cut = 0, the positive root in sqrt(t); no thermal age reaches below zero.
        var root = 0.5 * (reach + Math.Sqrt(Math.Max(0, (reach * reach) + (4 * cut))));
        return Math.Max(0, root) * Math.Max(0, root);
    }

    internal double Scale(double thermalAge) =>
        Math.Sqrt(VarianceFactor * (Variance == StageVariance.Proportional ? thermalAge : 1));
}
