namespace Broodtide.Domain.Journal;

/// <summary>A place in the changes of an account, to ask from there on.</summary>
/// <param name="Beginning">Raised when so much changed at once that it was not written down.</param>
/// <param name="Count">How many changes were written down since.</param>
internal readonly record struct ChangePlace(int Beginning, int Count);

/// <summary>What is told otherwise than before, occurrence by occurrence, so that nothing else need be told anew.</summary>
internal sealed class ChangeLog
{
    // What changes more at once is told anew as a whole; and no account carries a longer tail of changes with it.
    private const int Most = 4096;

    private readonly List<Occurrence> _changed = [];
    private int _beginning;

    /// <summary>Where the log stands.</summary>
    public ChangePlace Place => new(_beginning, _changed.Count);

    /// <summary>The occurrences that were put in or taken out since a place; none if it is not known any more.</summary>
    public IReadOnlyList<Occurrence>? Since(ChangePlace place) =>
        place.Beginning == _beginning ? _changed[place.Count..] : null;

    /// <summary>An occurrence was put in or taken out.</summary>
    public void Add(Occurrence occurrence)
    {
        if (_changed.Count >= Most)
        {
            Begin();
        }

        _changed.Add(occurrence);
    }

    /// <summary>From a place on all was told anew.</summary>
    public void Exchange(IReadOnlyList<Occurrence> before, IReadOnlyList<Occurrence> after, int from)
    {
        if (Math.Max(before.Count, after.Count) - from > Most)
        {
            Begin();
            return;
        }

        var gone = before.Skip(from).ToHashSet(ReferenceEqualityComparer.Instance);
        foreach (var occurrence in after.Skip(from))
        {
            if (!gone.Remove(occurrence))
            {
                Add(occurrence);
            }
        }

        foreach (var occurrence in gone)
        {
            Add((Occurrence)occurrence!);
        }
    }

    private void Begin()
    {
        _changed.Clear();
        _beginning++;
    }
}
