namespace Broodtide.Science.Counting;

/// <summary>How often one count occurred.</summary>
public sealed record CountFrequency
{
    /// <summary>A count and its times.</summary>
    /// <param name="count">The count, 0 or more.</param>
    /// <param name="times">How often, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public CountFrequency(int count, int times)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfNegative(times);
        Count = count;
        Times = times;
    }

    /// <summary>The count.</summary>
    public int Count { get; }

    /// <summary>How often.</summary>
    public int Times { get; }
}
