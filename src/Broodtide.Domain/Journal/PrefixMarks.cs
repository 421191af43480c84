namespace Broodtide.Domain.Journal;

/// <summary>
/// What tells two beginnings of an account apart: 128 bits mixed from the digests of its first occurrences. Not a
/// proof against malice, which the digests are; only a check that a checkpoint belongs to this account.
/// </summary>
/// <param name="First">64 of the bits.</param>
/// <param name="Second">The other 64.</param>
public readonly record struct PrefixMark(ulong First, ulong Second);

/// <summary>Marks of the beginnings at every checkpoint position, worked out when asked for.</summary>
internal sealed class PrefixMarks(List<Occurrence> occurrences)
{
    /// <summary>Checkpoints stand at every multiple of this many occurrences: placed by the log alone.</summary>
    public const int Spacing = 4096;

    private readonly List<PrefixMark> _marks = [default];
    private readonly List<Action<int>> _listeners = [];

    /// <summary>Asks to be told the position from which on the account has changed.</summary>
    public void Listen(Action<int> changedFrom) => _listeners.Add(changedFrom);

    public void ChangedFrom(int position)
    {
        var whole = (position / Spacing) + 1;
        if (_marks.Count > whole)
        {
            _marks.RemoveRange(whole, _marks.Count - whole);
        }

        foreach (var listener in _listeners)
        {
            listener(position);
        }
    }

    /// <summary>The mark of the first occurrences up to a checkpoint position, or none if there are not as many.</summary>
    public PrefixMark? At(int position)
    {
        if (position > occurrences.Count)
        {
            return null;
        }

        var wanted = position / Spacing;
        while (_marks.Count <= wanted)
        {
            var mark = _marks[^1];
            var start = (_marks.Count - 1) * Spacing;
            for (var i = start; i < start + Spacing; i++)
            {
                mark = Mix(mark, occurrences[i]);
            }

            _marks.Add(mark);
        }

        return _marks[wanted];
    }

    // The constants are the odd multipliers of SplitMix64 (Steele, Lea and Flood 2014); from memory.
    private static PrefixMark Mix(PrefixMark mark, Occurrence occurrence)
    {
        var erased = occurrence.Told.HasBody ? 0UL : 1UL;
        unchecked
        {
            return new(
                (ulong.RotateLeft(mark.First ^ occurrence.Told.Digest.First, 23) * 0xBF58476D1CE4E5B9UL)
                    + erased,
                (ulong.RotateLeft(mark.Second ^ occurrence.Told.Digest.Second, 41) * 0x94D049BB133111EBUL)
                    ^ occurrence.First.Digest.First
            );
        }
    }
}
