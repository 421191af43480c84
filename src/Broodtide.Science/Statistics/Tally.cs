namespace Broodtide.Science.Statistics;

/// <summary>How many of a number responded: found, survived, settled.</summary>
public sealed record Tally
{
    /// <summary>So many of so many.</summary>
    /// <param name="happened">How many responded, 0 to the number.</param>
    /// <param name="trials">Of how many, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public Tally(int happened, int trials)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(trials, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(happened);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(happened, trials);
        Happened = happened;
        Trials = trials;
    }

    /// <summary>How many responded.</summary>
    public int Happened { get; }

    /// <summary>Of how many.</summary>
    public int Trials { get; }

    /// <summary>The share seen, 0 to 1.</summary>
    public double Share => (double)Happened / Trials;
}
