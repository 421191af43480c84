using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using nietras.SeparatedValues;
using NodaTime;

namespace Broodtide.Workbench.OldNotes;

/// <summary>
/// Reads a file of old notes by a mapping, row by row, and says what each becomes. Nothing is written. The file is never
/// held whole; what it becomes is, up to <see cref="MostFacts"/>.
/// </summary>
public sealed class NotesReading
{
    /// <summary>The most entries that one file may become; a logger's rows are thinned. Own choice, no source.</summary>
    public const int MostFacts = 100_000;

    private const int MostShown = 100;
    private const int RowsBetweenNews = 4096;

    private readonly NotesMap _map;
    private readonly NotesTimes _times;
    private readonly DecimalMark _mark;
    private readonly Dictionary<string, VesselId?> _vessels = new(StringComparer.OrdinalIgnoreCase);
    private readonly Func<string, VesselId?> _vesselOf;
    private readonly HashSet<Digest> _inJournal;
    private readonly HashSet<Digest> _seen = [];
    private readonly Dictionary<(int Column, VesselId Vessel), Instant> _kept = [];
    private readonly List<NotesFact> _facts = [];
    private readonly List<NotesTrouble> _troubles = [];
    private readonly Dictionary<string, long> _counts = new(StringComparer.Ordinal);
    private readonly List<long> _firstDoubled = [];
    private long _rows;
    private long _doubledInFile;
    private long _doubledInJournal;
    private long _thinned;
    private bool _tooMany;

    private NotesReading(NotesMap map, Account account, Instant now, Func<string, VesselId?> vesselOf)
    {
        (_map, _vesselOf, _mark) = (map, vesselOf, map.Decimal ?? DecimalMark.Point);
        _times = new(map, now);
        _inJournal =
        [
            .. account
                .Occurrences.Where(told => Wanted(told.Fact))
                .Select(told => KeyOf(told.Happened, told.Fact)),
        ];
    }

    /// <summary>Reads a file.</summary>
    /// <param name="file">The file, read on and never sought in.</param>
    /// <param name="map">A mapping without open questions (<see cref="NotesQuestions"/>).</param>
    /// <param name="account">What the journal says already.</param>
    /// <param name="now">Later times cannot be.</param>
    /// <param name="vesselOf">The vessel of a name; none where there is none.</param>
    /// <param name="told">Hears how far it has come, every few thousand rows; may wait.</param>
    /// <param name="cancellation">Gives up between rows; nothing is kept.</param>
    /// <returns>What it becomes; or why it cannot be read at all.</returns>
    public static async Task<Parsed<NotesRead>> OfAsync(
        Stream file,
        NotesMap map,
        Account account,
        Instant now,
        Func<string, VesselId?> vesselOf,
        Func<NotesProgress, ValueTask>? told = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(map);
        ArgumentNullException.ThrowIfNull(account);
        ArgumentNullException.ThrowIfNull(vesselOf);
        var reading = new NotesReading(map, account, now, vesselOf);
        try
        {
            await reading.ReadAsync(file, told, cancellation);
        }
        catch (Exception broken)
            when (broken
                    is InvalidDataException
                        or System.Text.DecoderFallbackException
                        or NotSupportedException
            )
        {
            return Parsed<NotesRead>.No("notes-file-unreadable", new Argument("row", reading._rows + 1));
        }

        return Parsed<NotesRead>.Of(reading.Told());
    }

    private async Task ReadAsync(
        Stream file,
        Func<NotesProgress, ValueTask>? told,
        CancellationToken cancellation
    )
    {
        using var counted = new CountedStream(file);
        using var text = new StreamReader(
            counted,
            NotesText.EncodingOf(_map.IsLatin1),
            detectEncodingFromByteOrderMarks: true,
            1 << 16
        );
        using var reader = await NotesText.ReaderOf(_map.Delimiter).FromAsync(text, cancellation);
        await foreach (var row in reader)
        {
            cancellation.ThrowIfCancellationRequested();
            if (row.RowIndex >= _map.HeaderRows)
            {
                _rows++;
                Read(row);
            }

            if (told is not null && _rows % RowsBetweenNews == 0)
            {
                await told(new(_rows, counted.Count));
            }
        }
    }

    private void Read(SepReader.Row row)
    {
        var line = (long)row.LineNumberFrom;
        var happened = _times.Read(
            _map.DateColumn is { } date && date < row.ColCount ? row[date].Span : default,
            _map.TimeColumn is { } time && time < row.ColCount ? row[time].Span : default
        );
        if (IsEmpty(row))
        {
            return;
        }

        if (!happened.Succeeded)
        {
            Trouble(line, happened.Reason);
            return;
        }

        var name = _map.VesselColumn is { } named && named < row.ColCount ? row[named].Span.Trim() : default;
        if (VesselOf(name) is not { } vessel)
        {
            Trouble(line, new Remark("notes-vessel-unknown", new Argument("typed", name.ToString())));
            return;
        }

        foreach (var column in _map.Columns)
        {
            if (column.Column >= row.ColCount)
            {
                continue;
            }

            if (IsPassedOver(column, vessel, happened.Value.Earliest))
            {
                _thinned++;
                continue;
            }

            var (fact, wrong) = NotesCells.Read(column, _mark, vessel, row[column.Column].Span);
            if (wrong is not null)
            {
                Trouble(line, wrong);
            }
            else if (fact is not null)
            {
                Keep(line, column, vessel, happened.Value, fact);
            }
        }
    }

    private void Keep(long line, MappedColumn column, VesselId vessel, Happened happened, Fact fact)
    {
        if (_facts.Count >= MostFacts)
        {
            _tooMany = true;
            return;
        }

        var key = KeyOf(happened, fact);
        var (inJournal, inFile) = (_inJournal.Contains(key), !_seen.Add(key));
        if (inJournal || inFile)
        {
            _doubledInJournal += inJournal ? 1 : 0;
            _doubledInFile += inJournal ? 0 : 1;
            if (_firstDoubled.Count < MostShown)
            {
                _firstDoubled.Add(line);
            }

            if (_map.Doubles is not DoubleRows.Keep)
            {
                return;
            }
        }

        _kept[(column.Column, vessel)] = happened.Earliest;
        _facts.Add(new(line, happened, fact));
    }

    // A note is never one of many like it.
    private bool IsPassedOver(MappedColumn column, VesselId vessel, Instant at) =>
        _map.OneInMinutes is { } minutes
        && column.Meaning is ColumnMeaning.Reading
        && _kept.TryGetValue((column.Column, vessel), out var last)
        && at >= last
        && at < last + Duration.FromMinutes(minutes);

    private VesselId? VesselOf(ReadOnlySpan<char> name)
    {
        var lookup = _vessels.GetAlternateLookup<ReadOnlySpan<char>>();
        if (!lookup.TryGetValue(name, out var vessel))
        {
            var text = name.ToString();
            vessel = _vesselOf(_map.Vessels.TryGetValue(text, out var meant) ? meant : text);
            _vessels[text] = vessel;
        }

        return vessel;
    }

    private static bool IsEmpty(SepReader.Row row)
    {
        for (var at = 0; at < row.ColCount; at++)
        {
            if (!row[at].Span.IsWhiteSpace())
            {
                return false;
            }
        }

        return true;
    }

    private void Trouble(long line, Remark reason)
    {
        _counts[reason.Code] = _counts.GetValueOrDefault(reason.Code) + 1;
        if (_troubles.Count < MostShown)
        {
            _troubles.Add(new(line, reason));
        }
    }

    private NotesRead Told()
    {
        var hindrances = new List<Remark>();
        var doubled = _doubledInFile + _doubledInJournal;
        if (_counts.Count > 0 && !_map.LeaveOutUnreadable)
        {
            hindrances.Add(new("notes-rows-unreadable", new Argument("rows", _counts.Values.Sum())));
        }

        if (doubled > 0 && _map.Doubles is DoubleRows.Refuse)
        {
            hindrances.Add(
                new("notes-rows-doubled", new("inFile", _doubledInFile), new("inJournal", _doubledInJournal))
            );
        }

        if (_tooMany)
        {
            hindrances.Add(new("notes-too-many", new Argument("allowed", MostFacts)));
        }

        if (_facts.Count == 0)
        {
            hindrances.Add(new("notes-nothing-to-write"));
        }

        return new()
        {
            Rows = _rows,
            Facts = _facts,
            Troubles = _troubles,
            TroubleCounts = _counts,
            DoubledInFile = _doubledInFile,
            DoubledInJournal = _doubledInJournal,
            FirstDoubled = _firstDoubled,
            Thinned = _thinned,
            Hindrances = hindrances,
        };
    }

    private static bool Wanted(Fact fact) =>
        fact
            is Domain.Readings.ReadingTaken
                or Domain.Larvae.CountMade
                or Domain.Larvae.DeadRemoved
                or Domain.Keeping.NoteWritten;

    // The same said of the same at the same time: as values, not as somebody typed them.
    private static Digest KeyOf(Happened happened, Fact fact)
    {
        var plain = fact is Domain.Readings.ReadingTaken reading
            ? reading with
            {
                Value = TypedNumber.Of(reading.Value.Value, reading.Value.Unit),
                Instrument = null,
                SampleTemperature = null,
                Again = false,
            }
            : fact;
        var kind = Kinds.Of(plain);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> times = stackalloc byte[16];
        System.Buffers.Binary.BinaryPrimitives.WriteInt64BigEndian(
            times,
            happened.Earliest.ToUnixTimeTicks()
        );
        System.Buffers.Binary.BinaryPrimitives.WriteInt64BigEndian(
            times[8..],
            happened.Latest.ToUnixTimeTicks()
        );
        hash.AppendData(times);
        hash.AppendData(System.Text.Encoding.UTF8.GetBytes(kind.Name));
        hash.AppendData(kind.Write(plain));
        return Digest.FromBytes(hash.GetHashAndReset());
    }
}
