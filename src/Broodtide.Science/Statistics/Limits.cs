using Broodtide.Units;

namespace Broodtide.Science.Statistics;

/// <summary>Two-sided limits of confidence; their unit is that of whatever they bound.</summary>
/// <param name="Lower">Lower limit.</param>
/// <param name="Upper">Upper limit, not below the lower.</param>
/// <param name="Level">The share of such limits that hold the truth, half of the misses each side.</param>
public sealed record Limits(double Lower, double Upper, Probability Level)
{
    /// <summary>Both limits times a positive factor.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public Limits Times(double factor) => new(Lower * Finite.Positive(factor), Upper * factor, Level);

    /// <summary>Whether a value lies in the closed range.</summary>
    public bool Contains(double value) => value >= Lower && value <= Upper;

    /// <summary>The chance of a miss on one side, checked to lie above 0 and below one half.</summary>
    internal static double Tail(Probability level) =>
        Finite.Within(level.Opposite / 2, 1e-15, 0.5 - 1e-9, nameof(level));
}
