using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.OldNotes;
using nietras.SeparatedValues;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What one column of a logger's file became.</summary>
/// <param name="Sensor">The sensor.</param>
/// <param name="About">What is known of it.</param>
/// <param name="Readings">Its readings, in the order of the file.</param>
public sealed record LoggedColumn(SensorId Sensor, SensorAbout About, IReadOnlyList<RawReading> Readings);

/// <summary>
/// Reads a logger's file by its mapping: cells as old notes are read, with the decimal mark that was named and no other.
/// One row that cannot be read refuses the whole file, unless the mapping says that such rows are left out.
/// </summary>
public static class LoggerFile
{
    /// <summary>Most rows of a file: five years of one a minute.</summary>
    public const int MostRows = 2_700_000;

    // A logger that writes files is silent for a day before its file comes.
    private const double EverySeconds = 86_400;

    /// <summary>Its columns; or why it cannot be taken.</summary>
    /// <param name="file">The file, read on and never sought in.</param>
    /// <param name="device">The logger: a plain name.</param>
    /// <param name="map">Its mapping, a JSON file.</param>
    /// <param name="now">Later times cannot be.</param>
    /// <param name="cancellation">Gives up between rows.</param>
    public static async Task<Parsed<IReadOnlyList<LoggedColumn>>> ReadAsync(
        Stream file,
        string device,
        ReadOnlyMemory<byte> map,
        Instant now,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(file);
        if (!SensorId.IsPlain(device))
        {
            throw new ArgumentException("A logger has a plain name.", nameof(device));
        }

        try
        {
            return await RowsAsync(file, device, map, now, cancellation);
        }
        catch (Exception broken)
            when (broken is InvalidDataException or DecoderFallbackException or NotSupportedException)
        {
            return No("logger-file-unreadable");
        }
    }

    private static async Task<Parsed<IReadOnlyList<LoggedColumn>>> RowsAsync(
        Stream file,
        string device,
        ReadOnlyMemory<byte> utf8,
        Instant now,
        CancellationToken cancellation
    )
    {
        // The headings are needed before the encoding is known; both are written in plain letters by loggers.
        using var text = new StreamReader(
            file,
            NotesText.EncodingOf(IsLatin1(utf8)),
            true,
            1 << 16,
            leaveOpen: true
        );
        using var reader = await NotesText
            .ReaderOf(NotesMapText.DelimiterOf(utf8))
            .FromAsync(text, cancellation);
        LoggerMap? map = null;
        NotesTimes? times = null;
        Dictionary<int, List<RawReading>> columns = [];
        var (rows, unreadable, firstWrong) = (0L, 0L, 0L);
        var last = Instant.MinValue;
        foreach (var row in reader)
        {
            cancellation.ThrowIfCancellationRequested();
            rows++;
            if (map is null)
            {
                var headings = new List<string>();
                for (var at = 0; at < row.ColCount; at++)
                {
                    headings.Add(row[at].ToString());
                }

                var read = LoggerMap.Read(utf8, headings);
                if (!read.Succeeded)
                {
                    return Parsed<IReadOnlyList<LoggedColumn>>.No(read.Reason);
                }

                map = read.Value;
                times = new NotesTimes(map.Notes, now);
                columns = map.Notes.Columns.ToDictionary(
                    column => column.Column,
                    _ => new List<RawReading>()
                );
                continue;
            }

            if (rows <= map.Notes.HeaderRows)
            {
                continue;
            }

            if (rows > MostRows)
            {
                return No("logger-file-too-long", new Argument("rows", MostRows));
            }

            if (!Row(row, map, times!, columns, ref last))
            {
                unreadable++;
                firstWrong = firstWrong == 0 ? rows : firstWrong;
            }
        }

        if (map is { Notes.LeaveOutUnreadable: false } && unreadable > 0)
        {
            return No("logger-rows-unreadable", new("rows", unreadable), new("first", firstWrong));
        }

        return map is null || columns.Values.All(column => column.Count == 0)
            ? No("logger-file-empty")
            : Parsed<IReadOnlyList<LoggedColumn>>.Of([
                .. map.Notes.Columns.Select(column => new LoggedColumn(
                    SensorId.Find(device, map.Sensors[column.Column])!,
                    new(column.Unit!, EverySeconds: EverySeconds),
                    columns[column.Column]
                )),
            ]);
    }

    private static bool Row(
        SepReader.Row row,
        LoggerMap map,
        NotesTimes times,
        Dictionary<int, List<RawReading>> columns,
        ref Instant last
    )
    {
        var notes = map.Notes;
        if (row.ColCount == 1 && row[0].Span.IsWhiteSpace())
        {
            return true;
        }

        if (
            notes.DateColumn!.Value >= row.ColCount
            || (notes.TimeColumn is { } time && time >= row.ColCount)
            || times.Read(
                row[notes.DateColumn.Value].Span,
                notes.TimeColumn is { } clock ? row[clock].Span : default
            )
                is not { Succeeded: true, Value: var happened }
            // A day without a time tells a logger's reading nothing.
            || happened.Latest - happened.Earliest > Duration.FromHours(2)
        )
        {
            return false;
        }

        // An hour that the clock went through twice: the rows of a logger go on.
        var at = happened.Earliest > last ? happened.Earliest : happened.Latest;
        var found = new List<(int Column, double Value)>();
        foreach (var column in notes.Columns)
        {
            if (column.Column >= row.ColCount)
            {
                continue;
            }

            var (fact, wrong) = NotesCells.Read(
                column,
                notes.Decimal!.Value,
                default(VesselId),
                row[column.Column].Span
            );
            if (wrong is not null)
            {
                return false;
            }

            if (fact is ReadingTaken reading)
            {
                found.Add((column.Column, reading.Value.Value));
            }
        }

        last = at;
        foreach (var (column, value) in found)
        {
            columns[column].Add(new(RawReading.Cut(at), value));
        }

        return true;
    }

    private static bool IsLatin1(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            using var json = JsonDocument.Parse(utf8);
            return json.RootElement.TryGetProperty("encoding", out var encoding)
                && encoding.ValueKind is JsonValueKind.String
                && encoding.ValueEquals("latin-1");
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            // The mapping itself tells what is wrong with it.
            return false;
        }
    }

    private static Parsed<IReadOnlyList<LoggedColumn>> No(string code, params ReadOnlySpan<Argument> more) =>
        Parsed<IReadOnlyList<LoggedColumn>>.No(code, more);
}
