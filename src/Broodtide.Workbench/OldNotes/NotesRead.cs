using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.OldNotes;

/// <summary>What a cell of a row becomes.</summary>
/// <param name="Row">Number of the line in the file, from 1.</param>
/// <param name="Happened">When.</param>
/// <param name="Fact">What.</param>
public sealed record NotesFact(long Row, Happened Happened, Fact Fact);

/// <summary>What is wrong with a row.</summary>
/// <param name="Row">Number of the line in the file, from 1.</param>
/// <param name="Reason">Why.</param>
public sealed record NotesTrouble(long Row, Remark Reason);

/// <summary>How far a reading has come.</summary>
/// <param name="Rows">Rows read.</param>
/// <param name="Bytes">Bytes read, of those that the stream has.</param>
public sealed record NotesProgress(long Rows, long Bytes);

/// <summary>What a file becomes by a mapping, before anything is written.</summary>
public sealed record NotesRead
{
    /// <summary>Rows read, headings left out.</summary>
    public required long Rows { get; init; }

    /// <summary>What the rows become, in the order of the file.</summary>
    public required IReadOnlyList<NotesFact> Facts { get; init; }

    /// <summary>Rows that cannot be read: the first of them.</summary>
    public required IReadOnlyList<NotesTrouble> Troubles { get; init; }

    /// <summary>How many rows cannot be read, by reason.</summary>
    public required IReadOnlyDictionary<string, long> TroubleCounts { get; init; }

    /// <summary>Rows of the file that say again what a row before said.</summary>
    public required long DoubledInFile { get; init; }

    /// <summary>Rows that say what the journal says already.</summary>
    public required long DoubledInJournal { get; init; }

    /// <summary>The first rows that say again what was said.</summary>
    public required IReadOnlyList<long> FirstDoubled { get; init; }

    /// <summary>Rows of a logger passed over between those that were kept.</summary>
    public required long Thinned { get; init; }

    /// <summary>Why it is not written as it stands; none where it may be.</summary>
    public required IReadOnlyList<Remark> Hindrances { get; init; }
}
