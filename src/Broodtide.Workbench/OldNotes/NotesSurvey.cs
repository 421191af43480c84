using System.Text;
using Broodtide.Units;
using nietras.SeparatedValues;

namespace Broodtide.Workbench.OldNotes;

/// <summary>What was seen in a column: told to a person who answers what it means, never taken for an answer.</summary>
/// <param name="Heading">Its heading.</param>
/// <param name="Samples">Its first cells that are not empty.</param>
/// <param name="WithComma">Cells that hold figures with a comma.</param>
/// <param name="WithPoint">Cells that hold figures with a point.</param>
/// <param name="Letters">What stands behind figures, such as a unit, each once: the first few.</param>
/// <param name="FirstOver12">Cells whose first figures are over 12 and would be no month.</param>
/// <param name="SecondOver12">Cells whose second figures are over 12 and would be no month.</param>
/// <param name="TwoDigitYears">Cells that look like a date whose year has two figures.</param>
public sealed record SurveyedColumn(
    string Heading,
    IReadOnlyList<string> Samples,
    long WithComma,
    long WithPoint,
    IReadOnlyList<string> Letters,
    long FirstOver12,
    long SecondOver12,
    long TwoDigitYears
);

/// <summary>The first look at a file of old notes.</summary>
/// <param name="Delimiter">The sign between cells that parts its first line into most.</param>
/// <param name="Columns">Its columns.</param>
/// <param name="Rows">How many rows were looked at.</param>
public sealed record NotesSurvey(char Delimiter, IReadOnlyList<SurveyedColumn> Columns, long Rows)
{
    private const int RowsSeen = 2000;
    private const int SamplesShown = 4;
    private const int LongestCell = 80;
    private static readonly char[] Delimiters = [';', ',', '\t', '|'];

    /// <summary>Looks at the beginning of a file.</summary>
    /// <param name="file">The file.</param>
    /// <param name="isLatin1">Whether it is written in Latin-1; else in UTF-8.</param>
    /// <param name="delimiter">The sign between cells; the likeliest if left out.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>What was seen; or why it is no table.</returns>
    public static async Task<Parsed<NotesSurvey>> OfAsync(
        Stream file,
        bool isLatin1 = false,
        char? delimiter = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(file);
        var start = new byte[1 << 18];
        var length = await file.ReadAtLeastAsync(
            start,
            start.Length,
            throwOnEndOfStream: false,
            cancellation
        );
        try
        {
            return Of(start.AsSpan(0, length), isLatin1, delimiter, isWhole: length < start.Length);
        }
        catch (Exception broken) when (broken is InvalidDataException or DecoderFallbackException)
        {
            return Parsed<NotesSurvey>.No("notes-file-unreadable", new Argument("row", 1L));
        }
    }

    private static Parsed<NotesSurvey> Of(ReadOnlySpan<byte> start, bool isLatin1, char? given, bool isWhole)
    {
        // The last line may be cut, and in it a letter.
        var end = isWhole ? start.Length : start.LastIndexOf((byte)'\n') + 1;
        var text = NotesText.EncodingOf(isLatin1).GetString(start[..end]).TrimStart('\ufeff');
        var first = text.AsSpan(0, text.IndexOf('\n') is var line and >= 0 ? line : text.Length).ToString();
        if (string.IsNullOrWhiteSpace(first))
        {
            return Parsed<NotesSurvey>.No("notes-file-empty");
        }

        var delimiter = given ?? Delimiters.MaxBy(sign => first.Count(letter => letter == sign));
        using var reader = NotesText.ReaderOf(delimiter).FromText(text);
        List<Tally>? columns = null;
        var rows = 0L;
        foreach (var row in reader)
        {
            if (columns is null)
            {
                columns = [];
                for (var at = 0; at < row.ColCount; at++)
                {
                    columns.Add(new(row[at].ToString().Trim()));
                }

                continue;
            }

            if (++rows > RowsSeen)
            {
                break;
            }

            for (var at = 0; at < Math.Min(columns.Count, row.ColCount); at++)
            {
                columns[at].See(row[at].Span.Trim());
            }
        }

        return Parsed<NotesSurvey>.Of(new(delimiter, [.. columns!.Select(column => column.Told())], rows));
    }

    private sealed class Tally(string heading)
    {
        private readonly List<string> _samples = [];
        private readonly List<string> _letters = [];
        private long _comma;
        private long _point;
        private long _firstOver12;
        private long _secondOver12;
        private long _twoDigitYears;

        public SurveyedColumn Told() =>
            new(heading, _samples, _comma, _point, _letters, _firstOver12, _secondOver12, _twoDigitYears);

        public void See(ReadOnlySpan<char> cell)
        {
            if (cell.IsEmpty)
            {
                return;
            }

            if (_samples.Count < SamplesShown)
            {
                _samples.Add((cell.Length > LongestCell ? cell[..LongestCell] : cell).ToString());
            }

            if (!char.IsAsciiDigit(cell[0]) && cell[0] is not ('-' or '+'))
            {
                return;
            }

            var parts = cell.ToString().Split(' ', 'T')[0].Split('.', '/', '-');
            if (
                parts.Length == 3
                && parts.All(part => part.Length is > 0 and <= 4 && part.All(char.IsAsciiDigit))
            )
            {
                _firstOver12 +=
                    parts[0].Length <= 2
                    && int.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture) > 12
                        ? 1
                        : 0;
                _secondOver12 +=
                    parts[1].Length <= 2
                    && int.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture) > 12
                        ? 1
                        : 0;
                _twoDigitYears += parts.All(part => part.Length <= 2) ? 1 : 0;
                return;
            }

            _comma += cell.Contains(',') ? 1 : 0;
            _point += cell.Contains('.') ? 1 : 0;
            var end = cell.Length;
            while (end > 0 && !char.IsAsciiDigit(cell[end - 1]))
            {
                end--;
            }

            var letters = cell[end..].Trim().ToString();
            if (letters.Length is > 0 and < 16 && _letters.Count < 6 && !_letters.Contains(letters))
            {
                _letters.Add(letters);
            }
        }
    }
}
