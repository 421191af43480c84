using Broodtide.Units;

namespace Broodtide.Science.Survival;

/// <summary>
/// How long one larva was followed on its own, and whether it died then or was only last seen alive. The unit of
/// time is the caller's, the same for all that are compared.
/// </summary>
public readonly record struct Lifetime
{
    private Lifetime(double time, bool died)
    {
        Time = time;
        Died = died;
    }

    /// <summary>When it died or was last seen alive.</summary>
    public double Time { get; }

    /// <summary>Whether it died; otherwise it was still alive and is followed no longer.</summary>
    public bool Died { get; }

    /// <summary>A death.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Lifetime DiedAt(double time) => new(Finite.NotNegative(time), true);

    /// <summary>Alive when last seen.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Lifetime AliveAt(double time) => new(Finite.NotNegative(time), false);
}
