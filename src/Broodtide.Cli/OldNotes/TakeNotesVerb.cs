using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.OldNotes;

namespace Broodtide.Cli.OldNotes;

/// <summary>What a cell becomes.</summary>
internal sealed record NotesEntryJson(long Row, string HappenedFrom, string HappenedTo, string Words);

/// <summary>What is wrong with a row.</summary>
internal sealed record NotesTroubleJson(long Row, RemarkJson Reason);

/// <summary>What a file becomes, or became.</summary>
internal sealed record NotesTakenAnswer(
    string File,
    bool Written,
    long RowCount,
    int EntryCount,
    IReadOnlyList<NotesEntryJson> FirstEntries,
    long UnreadableRowCount,
    IReadOnlyList<NotesTroubleJson> FirstTroubles,
    long DoubledInFile,
    long DoubledInJournal,
    IReadOnlyList<long> FirstDoubledRows,
    long ThinnedCount,
    IReadOnlyList<RemarkJson> Hindrances
);

/// <summary>Shows what a file becomes by a mapping, and writes it when asked to: all of it or nothing.</summary>
internal static class TakeNotesVerb
{
    private const int Shown = 12;
    private const long BytesBetweenNews = 20_000_000;

    public static VerbCommand Make()
    {
        var file = Slot.Word("FILE", "The table as text.");
        var map = Slot.Option(
            "--map",
            "The mapping, a JSON file; docs/old-notes.md tells its members.",
            "FILE"
        );
        var write = Slot.Flag("--write", "Write what is shown without it: all of it, or nothing.");
        return new(
            "take",
            "Show what each row of a file becomes by a mapping; with --write, write all of it or nothing.",
            ["notes take old.csv --map oldmap.json", "notes take old.csv --map oldmap.json --write"],
            [file, map, write],
            sitting =>
                TakeAsync(
                    sitting,
                    file.Text(sitting.Parse)!,
                    map.Text(sitting.Parse),
                    write.Text(sitting.Parse) is not null
                )
        );
    }

    private static async Task<int> TakeAsync(Sitting sitting, string path, string? mapPath, bool isToWrite)
    {
        var outlook = await sitting.LookAsync();
        var saying = await sitting.SayingAsync();
        if (mapPath is null)
        {
            return sitting.Refuse([new Remark("notes-ask-map")], saying);
        }

        var map = await MapAsync(path, mapPath, sitting.Cancellation);
        if (!map.Succeeded)
        {
            return sitting.NotUnderstood([map.Reason], saying);
        }

        var (chosen, columns) = (map.Value.Map, map.Value.Columns);
        if (NotesQuestions.Of(chosen, columns) is { Count: > 0 } questions)
        {
            return sitting.Refuse(questions, saying);
        }

        var naming = new Naming(outlook.House);
        await using var stream = File.OpenRead(path);
        var told = 0L;
        var read = await NotesReading.OfAsync(
            stream,
            chosen,
            outlook.House.Account,
            sitting.Now,
            name => naming.Vessel(name) is { Succeeded: true } vessel ? vessel.Value : null,
            progress =>
            {
                if (progress.Bytes - told >= BytesBetweenNews && !sitting.Json)
                {
                    told = progress.Bytes;
                    sitting.Surroundings.Error.WriteLine(
                        $"{progress.Bytes / 1_000_000} of {stream.Length / 1_000_000} MB, {progress.Rows} rows"
                    );
                }

                return ValueTask.CompletedTask;
            },
            sitting.Cancellation
        );
        if (!read.Succeeded)
        {
            return sitting.NotUnderstood([read.Reason], saying);
        }

        if (isToWrite && read.Value.Hindrances.Count > 0)
        {
            return sitting.Refuse(read.Value.Hindrances, saying);
        }

        if (isToWrite)
        {
            var keeper = sitting.Keeper;
            await (await sitting.OpenAsync()).AppendAsync(
                [.. read.Value.Facts.Select(fact => keeper.Write(fact.Fact, fact.Happened))],
                sitting.Cancellation
            );
        }

        var answer = Answer(path, isToWrite, read.Value, saying, outlook.House);
        return sitting.Answer(answer, CliJson.Default.NotesTakenAnswer, page => Print(page, answer));
    }

    private static async Task<Parsed<Mapped>> MapAsync(
        string path,
        string mapPath,
        CancellationToken cancellation
    )
    {
        var text = await File.ReadAllBytesAsync(mapPath, cancellation);
        await using var start = File.OpenRead(path);
        // Headings are letters of every encoding; a wrong one is told by the reading itself.
        var survey = await NotesSurvey.OfAsync(
            start,
            isLatin1: true,
            NotesMapText.DelimiterOf(text),
            cancellation
        );
        if (!survey.Succeeded)
        {
            return Parsed<Mapped>.No(survey.Reason);
        }

        var headings = survey.Value.Columns.Select(column => Utf8(column.Heading)).ToList();
        var map = NotesMapText.Read(text, headings);
        return map.Succeeded
            ? Parsed<Mapped>.Of(new(map.Value, headings.Count))
            : Parsed<Mapped>.No(map.Reason);
    }

    private static string Utf8(string latin)
    {
        try
        {
            return new System.Text.UTF8Encoding(false, throwOnInvalidBytes: true).GetString(
                System.Text.Encoding.Latin1.GetBytes(latin)
            );
        }
        catch (System.Text.DecoderFallbackException)
        {
            return latin;
        }
    }

    private static NotesTakenAnswer Answer(
        string path,
        bool written,
        NotesRead read,
        Saying saying,
        House house
    )
    {
        var words = new FactWords(saying, house);
        return new(
            path,
            written,
            read.Rows,
            read.Facts.Count,
            [
                .. read
                    .Facts.Take(Shown)
                    .Select(fact => new NotesEntryJson(
                        fact.Row,
                        Saying.Iso(fact.Happened.Earliest),
                        Saying.Iso(fact.Happened.Latest),
                        words.Of(fact.Fact)
                    )),
            ],
            read.TroubleCounts.Values.Sum(),
            [
                .. read
                    .Troubles.Take(Shown)
                    .Select(trouble => new NotesTroubleJson(trouble.Row, saying.Json(trouble.Reason))),
            ],
            read.DoubledInFile,
            read.DoubledInJournal,
            [.. read.FirstDoubled.Take(Shown)],
            read.Thinned,
            [.. read.Hindrances.Select(saying.Json)]
        );
    }

    private static void Print(Page page, NotesTakenAnswer answer)
    {
        page.Line(
            answer.Written
                ? $"{answer.EntryCount} entries of {answer.RowCount} rows are written."
                : $"{answer.RowCount} rows become {answer.EntryCount} entries. Nothing is written yet."
        );
        if (!answer.Written)
        {
            page.Table(
                ["row", "from", "to", "becomes"],
                answer.FirstEntries.Select(entry =>
                    (IReadOnlyList<string>)[$"{entry.Row}", entry.HappenedFrom, entry.HappenedTo, entry.Words]
                )
            );
        }

        foreach (var trouble in answer.FirstTroubles)
        {
            page.Line($"Row {trouble.Row}: {trouble.Reason.Words}");
        }

        if (answer.DoubledInFile + answer.DoubledInJournal > 0)
        {
            page.Line(
                $"Said already: {answer.DoubledInFile} in the file, {answer.DoubledInJournal} in the journal; rows {string.Join(", ", answer.FirstDoubledRows)}."
            );
        }

        if (answer.ThinnedCount > 0)
        {
            page.Line($"Passed over between those that are kept: {answer.ThinnedCount}.");
        }

        foreach (var hindrance in answer.Hindrances)
        {
            page.Line($"Not written as it stands: {hindrance.Words}");
        }
    }

    private sealed record Mapped(NotesMap Map, int Columns);
}
