using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// The stages of a species, as shares of a larva's own development: stage j ends when it has gone through the share
/// b_j of what it needs, and the last stage, the settled one, begins at 1.
/// </summary>
public sealed record LarvalStages
{
    /// <summary>Stages by the shares at which the larval ones end.</summary>
    /// <param name="ends">Ascending, above 0, the last equal to 1: one number a larval stage.</param>
    /// <param name="lightFadesFrom">
    /// Number, from 0, of the first stage that is no longer drawn to light; the number of stages if none is.
    /// </param>
    /// <exception cref="ArgumentException">No stage.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not ascending, not finite, or the last is not 1.</exception>
    public LarvalStages(IReadOnlyList<double> ends, int lightFadesFrom)
    {
        if (ends.Count == 0)
        {
            throw new ArgumentException("A species has one larval stage or more.", nameof(ends));
        }

        var before = 0.0;
        foreach (var end in ends)
        {
            before = Finite.Within(end, Math.BitIncrement(before), 1, nameof(ends));
        }

        Finite.Within(before, 1, 1, nameof(ends));
        Ends = [.. ends];
        LightFadesFrom = Math.Clamp(lightFadesFrom, 0, ends.Count + 1);
    }

    /// <summary>The shares of development at which the larval stages end.</summary>
    public ImmutableArray<double> Ends { get; }

    /// <summary>Number, from 0, of the first stage that is no longer drawn to light.</summary>
    public int LightFadesFrom { get; }

    /// <summary>Number of stages, the settled one included.</summary>
    public int Count => Ends.Length + 1;

    /// <summary>Larval stages of equal length: an assumption where no stage times are published.</summary>
    /// <param name="larval">Number of larval stages, at least 1.</param>
    /// <param name="lightFadesFrom">See the constructor.</param>
    public static LarvalStages Even(int larval, int lightFadesFrom) =>
        new([.. Enumerable.Range(1, larval).Select(stage => (double)stage / larval)], lightFadesFrom);
}
