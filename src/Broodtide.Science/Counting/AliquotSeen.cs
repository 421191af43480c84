using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>One aliquot: its own number and its own volume.</summary>
public sealed record AliquotSeen
{
    /// <summary>So many in so much water.</summary>
    /// <param name="seen">How many were seen, 0 or more.</param>
    /// <param name="volume">Volume of the aliquot, above 0 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number or no water.</exception>
    public AliquotSeen(int seen, Volume volume)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        Finite.Positive(volume.Litres, nameof(volume));
        Seen = seen;
        Volume = volume;
    }

    /// <summary>How many were seen.</summary>
    public int Seen { get; }

    /// <summary>Volume of the aliquot.</summary>
    public Volume Volume { get; }
}
