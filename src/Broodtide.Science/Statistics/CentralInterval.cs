using Broodtide.Units;

namespace Broodtide.Science.Statistics;

/// <summary>A forecast interval that shall hold the truth with probability 1 - alpha, half of the misses each side.</summary>
public sealed record CentralInterval
{
    /// <summary>An interval with its level.</summary>
    /// <param name="lower">Lower end.</param>
    /// <param name="upper">Upper end, not below the lower.</param>
    /// <param name="alpha">One minus the nominal level, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public CentralInterval(double lower, double upper, double alpha)
    {
        Lower = Finite.Required(lower);
        Upper = Finite.Within(upper, lower, double.MaxValue);
        Alpha = Finite.Within(alpha, double.Epsilon, 1);
    }

    /// <summary>Lower end.</summary>
    public double Lower { get; }

    /// <summary>Upper end.</summary>
    public double Upper { get; }

    /// <summary>One minus the nominal level.</summary>
    public double Alpha { get; }
}
