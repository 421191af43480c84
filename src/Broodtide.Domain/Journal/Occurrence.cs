using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Something that happened, as it is told now: the entry whose words stand, after corrections, and the entry it
/// began with.
/// </summary>
public sealed class Occurrence
{
    internal Occurrence(Entry told, Entry first, bool hasRivals)
    {
        Told = told;
        First = first;
        HasRivals = hasRivals;
    }

    /// <summary>The entry whose words stand.</summary>
    public Entry Told { get; }

    /// <summary>The entry it began with: the same as <see cref="Told"/> when nothing was corrected.</summary>
    public Entry First { get; }

    /// <summary>Whether two people or two devices corrected the same words, so that one correction lost.</summary>
    public bool HasRivals { get; }

    /// <summary>Whether the first words were corrected.</summary>
    public bool IsCorrected => !ReferenceEquals(Told, First);

    /// <summary>Identity of the entry it began with: stays the same through corrections.</summary>
    public EntryId Id => First.Id;

    /// <summary>What happened.</summary>
    public Fact Fact => Told.Fact;

    /// <summary>When it happened, as far as known.</summary>
    public Happened Happened => Told.Envelope.Happened;

    /// <summary>When the words that stand were written down.</summary>
    public Instant Written => Told.Envelope.Written;

    /// <summary>Who wrote the words that stand.</summary>
    public Author Author => Told.Envelope.Author;

    internal bool IsSameAs(Occurrence other) =>
        ReferenceEquals(Told, other.Told)
        && ReferenceEquals(First, other.First)
        && HasRivals == other.HasRivals;
}

/// <summary>The one order of telling: earliest happened, latest happened, written, replica, running number.</summary>
public sealed class OrderOfTelling : IComparer<Occurrence>, IComparer<Entry>
{
    /// <summary>The order.</summary>
    public static OrderOfTelling Instance { get; } = new();

    private OrderOfTelling() { }

    /// <inheritdoc/>
    public int Compare(Occurrence? x, Occurrence? y) => Compare(x?.Told, y?.Told);

    /// <inheritdoc/>
    public int Compare(Entry? x, Entry? y)
    {
        if (ReferenceEquals(x, y))
        {
            return 0;
        }

        if (x is null || y is null)
        {
            return x is null ? -1 : 1;
        }

        var order = x.Envelope.Happened.Earliest.CompareTo(y.Envelope.Happened.Earliest);
        order = order != 0 ? order : x.Envelope.Happened.Latest.CompareTo(y.Envelope.Happened.Latest);
        return order != 0 ? order : ByWriting(x, y);
    }

    /// <summary>The order in which corrections outrank each other: written, replica, running number.</summary>
    public static int ByWriting(Entry x, Entry y)
    {
        var order = x.Envelope.Written.CompareTo(y.Envelope.Written);
        order = order != 0 ? order : x.Envelope.Replica.Value.CompareTo(y.Envelope.Replica.Value);
        order = order != 0 ? order : x.Envelope.Sequence.CompareTo(y.Envelope.Sequence);
        // Two entries can share all of these only by a fault; their bytes still differ.
        return order != 0 ? order : x.Digest.CompareTo(y.Digest);
    }
}
