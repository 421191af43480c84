namespace Broodtide.Domain.Journal;

/// <summary>The occurrences in the one order of telling, with the marks of their beginnings.</summary>
internal sealed class Telling
{
    private readonly List<Occurrence> _occurrences = [];

    public Telling(int checkpointSpacing) => Marks = new PrefixMarks(_occurrences, checkpointSpacing);

    public IReadOnlyList<Occurrence> Occurrences => _occurrences;

    public PrefixMarks Marks { get; }

    /// <summary>What was put in or taken out so far.</summary>
    public ChangeLog Changes { get; } = new();

    /// <summary>Puts an occurrence in its place; one that is told already changes nothing.</summary>
    public void Insert(Occurrence occurrence)
    {
        var position = _occurrences.BinarySearch(occurrence, OrderOfTelling.Instance);
        if (position < 0)
        {
            _occurrences.Insert(~position, occurrence);
            Changes.Add(occurrence);
            Marks.ChangedFrom(~position);
        }
    }

    /// <summary>Takes an occurrence out, if it is told.</summary>
    public void Remove(Occurrence occurrence)
    {
        var position = _occurrences.BinarySearch(occurrence, OrderOfTelling.Instance);
        if (position >= 0)
        {
            Changes.Add(_occurrences[position]);
            _occurrences.RemoveAt(position);
            Marks.ChangedFrom(position);
        }
    }

    /// <summary>Tells all anew; a beginning that stays the same is left as it is.</summary>
    public void Replace(IEnumerable<Occurrence> occurrences) => Put(Sorted([.. occurrences]));

    /// <summary>The same for who may not be held up; nothing is told otherwise until the last piece is done.</summary>
    /// <param name="occurrences">The occurrences.</param>
    /// <param name="piece">How many are looked at between two pauses, about.</param>
    /// <returns>As many as there are pauses.</returns>
    public IEnumerable<int> ReplaceInPieces(IEnumerable<Occurrence> occurrences, int piece)
    {
        var told = new List<Occurrence>();
        foreach (var occurrence in occurrences)
        {
            told.Add(occurrence);
            if (told.Count % piece == 0)
            {
                yield return told.Count;
            }
        }

        var runs = new Queue<Occurrence[]>();
        for (var at = 0; at < told.Count; at += piece)
        {
            runs.Enqueue(Sorted([.. told[at..Math.Min(told.Count, at + piece)]]));
            yield return at;
        }

        while (runs.Count > 1)
        {
            var (one, other) = (runs.Dequeue(), runs.Dequeue());
            var both = new Occurrence[one.Length + other.Length];
            for (var (at, first, second) = (0, 0, 0); at < both.Length; at++)
            {
                both[at] =
                    second == other.Length
                    || (first < one.Length && OrderOfTelling.Instance.Compare(one[first], other[second]) <= 0)
                        ? one[first++]
                        : other[second++];
                if (at % piece == 0)
                {
                    yield return at;
                }
            }

            runs.Enqueue(both);
        }

        Put(runs.Count > 0 ? runs.Dequeue() : []);
    }

    private void Put(Occurrence[] told)
    {
        var same = 0;
        while (same < told.Length && same < _occurrences.Count && told[same].IsSameAs(_occurrences[same]))
        {
            same++;
        }

        Changes.Exchange(_occurrences, told, same);
        _occurrences.RemoveRange(same, _occurrences.Count - same);
        _occurrences.AddRange(told.AsSpan(same));
        Marks.ChangedFrom(same);
    }

    // Nearly all occurrences differ in their earliest instant, and plain numbers sort several times faster than
    // the whole order; what shares a tenth of a microsecond is then put in order among itself.
    private static Occurrence[] Sorted(Occurrence[] occurrences)
    {
        var earliest = Array.ConvertAll(occurrences, told => told.Happened.Earliest.ToUnixTimeTicks());
        Array.Sort(earliest, occurrences);
        for (var start = 0; start < occurrences.Length; )
        {
            var end = start + 1;
            while (end < occurrences.Length && earliest[end] == earliest[start])
            {
                end++;
            }

            occurrences.AsSpan(start..end).Sort(OrderOfTelling.Instance);
            start = end;
        }

        return occurrences;
    }
}
