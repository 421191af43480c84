using Broodtide.Units;

namespace Broodtide.Science.Development.Staging;

/// <summary>Larvae looked at together: how many were in each stage.</summary>
public sealed record StageSample
{
    /// <summary>A sample.</summary>
    /// <param name="thermalAge">
    /// Time or thermal time since the beginning, above zero; degree-days, days at a reference temperature or plain
    /// days, the same for all samples of a fit.
    /// </param>
    /// <param name="counts">Larvae in the first stage, the second, and so on; two or more stages, none negative.</param>
    /// <exception cref="ArgumentException">Fewer than two stages, or no larva at all.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public StageSample(double thermalAge, IReadOnlyList<int> counts)
    {
        ThermalAge = Finite.Positive(thermalAge);
        foreach (var count in counts)
        {
            Finite.NotNegative(count, nameof(counts));
        }

        Counts =
            counts.Count >= 2 && counts.Any(count => count > 0)
                ? [.. counts]
                : throw new ArgumentException(
                    "A sample has two or more stages and at least one larva.",
                    nameof(counts)
                );
    }

    /// <summary>Thermal age at which they were looked at.</summary>
    public double ThermalAge { get; }

    /// <summary>Larvae by stage.</summary>
    public IReadOnlyList<int> Counts { get; }

    /// <summary>All larvae of the sample.</summary>
    public int Larvae => Counts.Sum();

    /// <summary>
    /// Mean stage, the first being 1: sum of stage times number over all. The simplest measure of development.
    /// </summary>
    public double DevelopmentIndex => Counts.Select((count, stage) => count * (stage + 1.0)).Sum() / Larvae;
}
