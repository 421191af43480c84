using Broodtide.Units;

namespace Broodtide.Science.Survival;

/// <summary>
/// What the looks at one larva say about its death: after one look and up to another, at a known moment, or not
/// yet. The moment of the look at which it lay dead is not the moment it died. The unit of time is the caller's.
/// </summary>
public readonly record struct DeathWindow
{
    private DeathWindow(double after, double? upTo)
    {
        After = after;
        UpTo = upTo;
    }

    /// <summary>Last seen alive; the moment of death itself if that is known.</summary>
    public double After { get; }

    /// <summary>First seen dead; none while it lives.</summary>
    public double? UpTo { get; }

    /// <summary>Whether the moment of death is known exactly.</summary>
    public bool IsExact => UpTo is { } upTo && upTo.Equals(After);

    /// <summary>Alive at one look, dead at the next.</summary>
    /// <param name="lastAlive">Time of the look at which it lived; zero for the beginning.</param>
    /// <param name="firstDead">Time of the look at which it was dead, later than the other.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative, or not in this order.</exception>
    public static DeathWindow Between(double lastAlive, double firstDead) =>
        new(
            Finite.NotNegative(lastAlive),
            Finite.Within(firstDead, Math.BitIncrement(lastAlive), double.MaxValue)
        );

    /// <summary>Alive at the last look.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static DeathWindow NotBefore(double lastAlive) => new(Finite.NotNegative(lastAlive), null);

    /// <summary>Died at a known moment.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or not above zero.</exception>
    public static DeathWindow At(double time) => new(Finite.Positive(time), time);

    /// <summary>A life followed without gaps.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A death at time zero.</exception>
    public static DeathWindow Of(Lifetime lifetime) =>
        lifetime.Died ? At(lifetime.Time) : NotBefore(lifetime.Time);
}
