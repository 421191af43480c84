using System.Buffers.Binary;
using System.Text;

namespace Broodtide.Domain.Journal;

/// <summary>
/// What tells two beginnings of an account apart: 128 bits mixed from its first occurrences and from the kinds and
/// units that this build knows, since a fold sees other facts when it can read more of them. Not a proof against
/// malice, which the digests are; only a check that a checkpoint belongs to this account and this build.
/// </summary>
/// <param name="First">64 of the bits.</param>
/// <param name="Second">The other 64.</param>
public readonly record struct PrefixMark(ulong First, ulong Second)
{
    /// <summary>The mark of some occurrences that are told one after another.</summary>
    /// <param name="occurrences">The occurrences, in the order of telling.</param>
    /// <param name="count">How many of them, from the first.</param>
    public static PrefixMark Of(IReadOnlyList<Occurrence> occurrences, int count)
    {
        var mark = PrefixMarks.Start;
        for (var at = 0; at < count; at++)
        {
            mark = PrefixMarks.Mix(mark, occurrences[at]);
        }

        return mark;
    }

    /// <summary>The mark of bytes that are kept: tells those that were changed or cut short.</summary>
    public static PrefixMark Of(ReadOnlySpan<byte> bytes)
    {
        var mark = new PrefixMark((ulong)bytes.Length, 0);
        for (; bytes.Length >= sizeof(ulong); bytes = bytes[sizeof(ulong)..])
        {
            mark = PrefixMarks.Mix(mark, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
        }

        foreach (var last in bytes)
        {
            mark = PrefixMarks.Mix(mark, last);
        }

        return mark;
    }
}

/// <summary>Something that rests on a beginning of an account.</summary>
internal interface IRestsOnBeginning
{
    /// <summary>Everything from this position on may be another now.</summary>
    void Rewind(int position);
}

/// <summary>Marks of the beginnings at every checkpoint position, worked out when asked for.</summary>
/// <param name="occurrences">The occurrences, in the order of telling.</param>
/// <param name="spacing">Checkpoints stand at every multiple of this many occurrences: placed by the log alone.</param>
internal sealed class PrefixMarks(List<Occurrence> occurrences, int spacing)
{
    public const int UsualSpacing = 4096;

    private readonly List<PrefixMark> _marks = [Start];
    private readonly List<WeakReference<IRestsOnBeginning>> _resting = [];

    public IReadOnlyList<Occurrence> Occurrences => occurrences;

    public bool IsCheckpoint(int position) => position % spacing == 0;

    /// <summary>Asks to be told when a beginning changes; nothing is kept alive by it.</summary>
    public void Add(IRestsOnBeginning resting) => _resting.Add(new(resting));

    public void ChangedFrom(int position)
    {
        var whole = (position / spacing) + 1;
        if (_marks.Count > whole)
        {
            _marks.RemoveRange(whole, _marks.Count - whole);
        }

        var gone = false;
        foreach (var reference in _resting)
        {
            if (reference.TryGetTarget(out var resting))
            {
                resting.Rewind(position);
            }
            else
            {
                gone = true;
            }
        }

        if (gone)
        {
            _resting.RemoveAll(reference => !reference.TryGetTarget(out _));
        }
    }

    /// <summary>The mark of the first occurrences up to a checkpoint position, or none if there are not as many.</summary>
    public PrefixMark? At(int position)
    {
        if (position > occurrences.Count)
        {
            return null;
        }

        var wanted = position / spacing;
        while (_marks.Count <= wanted)
        {
            var mark = _marks[^1];
            var start = (_marks.Count - 1) * spacing;
            for (var i = start; i < start + spacing; i++)
            {
                mark = Mix(mark, occurrences[i]);
            }

            _marks.Add(mark);
        }

        return _marks[wanted];
    }

    internal static PrefixMark Mix(PrefixMark mark, ulong word)
    {
        unchecked
        {
            return new(
                ulong.RotateLeft(mark.First ^ word, 23) * 0xBF58476D1CE4E5B9UL,
                (ulong.RotateLeft(mark.Second + word, 41) * 0x94D049BB133111EBUL) ^ mark.First
            );
        }
    }

    // The constants are the odd multipliers of SplitMix64 (Steele, Lea and Flood 2014); from memory.
    internal static PrefixMark Mix(PrefixMark mark, Occurrence occurrence)
    {
        // All that a fold can see beside the digests: which facts are here, and whether there were rivals.
        var seen =
            (occurrence.Told.HasBody ? 0UL : 1UL)
            + (occurrence.First.HasBody ? 0UL : 2UL)
            + (occurrence.HasRivals ? 4UL : 0UL);
        unchecked
        {
            return new(
                (ulong.RotateLeft(mark.First ^ occurrence.Told.Digest.First, 23) * 0xBF58476D1CE4E5B9UL)
                    + seen,
                (ulong.RotateLeft(mark.Second ^ occurrence.Told.Digest.Second, 41) * 0x94D049BB133111EBUL)
                    ^ occurrence.First.Digest.First
            );
        }
    }

    internal static readonly PrefixMark Start = StartOfThisBuild();

    private static PrefixMark StartOfThisBuild()
    {
        var text = new StringBuilder();
        foreach (var kind in Kinds.All)
        {
            text.Append(kind.Name).Append('\t').Append(kind.Version).Append('\n');
        }

        foreach (var unit in UnitCode.All)
        {
            text.Append(unit).Append('\n');
        }

        var digest = Digest.Of(Encoding.UTF8.GetBytes(text.ToString()));
        return new(digest.First, digest.Second);
    }
}
