using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Workbench.OldNotes;

namespace Broodtide.Cli.OldNotes;

/// <summary>A column of a file, as it was seen.</summary>
internal sealed record SurveyedColumnJson(
    string Heading,
    IReadOnlyList<string> Samples,
    long CellsWithComma,
    long CellsWithPoint,
    IReadOnlyList<string> BehindFigures,
    long DatesWithFirstOver12,
    long DatesWithSecondOver12,
    long DatesWithTwoDigitYear
);

/// <summary>The first look at a file.</summary>
internal sealed record NotesSurveyAnswer(
    string File,
    string Delimiter,
    long RowsSeen,
    IReadOnlyList<SurveyedColumnJson> Columns
);

/// <summary>Old notes in a file of comma-separated values: looked at, shown as what they become, written.</summary>
internal static class NotesVerb
{
    public static Command Make() =>
        new(
            "notes",
            "Old notes and loggers' files: seen as what each row becomes before anything is written."
        )
        {
            Look(),
            TakeNotesVerb.Make(),
        };

    private static VerbCommand Look()
    {
        var file = Slot.Word("FILE", "A table as text: cells parted by commas, semicolons, tabs or bars.");
        var latin = Slot.Flag("--latin-1", "It is written in Latin-1; else in UTF-8.");
        return new(
            "look",
            "Tell what stands in the columns of a file, to write a mapping by. Nothing is taken for an answer.",
            ["notes look old.csv"],
            [file, latin],
            async sitting =>
            {
                var path = file.Text(sitting.Parse)!;
                await using var stream = File.OpenRead(path);
                var survey = await NotesSurvey.OfAsync(
                    stream,
                    latin.Text(sitting.Parse) is not null,
                    cancellation: sitting.Cancellation
                );
                if (!survey.Succeeded)
                {
                    return sitting.NotUnderstood([survey.Reason], new Saying(sitting.Zone, null));
                }

                var answer = new NotesSurveyAnswer(
                    path,
                    survey.Value.Delimiter == '\t' ? "tab" : survey.Value.Delimiter.ToString(),
                    survey.Value.Rows,
                    [
                        .. survey.Value.Columns.Select(column => new SurveyedColumnJson(
                            column.Heading,
                            column.Samples,
                            column.WithComma,
                            column.WithPoint,
                            column.Letters,
                            column.FirstOver12,
                            column.SecondOver12,
                            column.TwoDigitYears
                        )),
                    ]
                );
                return sitting.Answer(answer, CliJson.Default.NotesSurveyAnswer, page => Print(page, answer));
            }
        );
    }

    private static void Print(Page page, NotesSurveyAnswer answer)
    {
        page.Line($"{answer.RowsSeen} rows looked at; cells parted by \"{answer.Delimiter}\".")
            .Table(
                ["column", "first cells", "seen"],
                answer.Columns.Select(column =>
                    (IReadOnlyList<string>)[column.Heading, string.Join(" | ", column.Samples), Seen(column)]
                )
            );
    }

    private static string Seen(SurveyedColumnJson column)
    {
        string?[] parts =
        [
            column.CellsWithComma > 0 && column.CellsWithPoint > 0
                ? $"commas in {column.CellsWithComma} cells and points in {column.CellsWithPoint}: mixed"
            : column.CellsWithComma > 0 ? $"commas in {column.CellsWithComma} cells"
            : column.CellsWithPoint > 0 ? $"points in {column.CellsWithPoint} cells"
            : null,
            column.BehindFigures.Count > 1 ? $"several units: {string.Join(", ", column.BehindFigures)}"
            : column.BehindFigures.Count == 1 ? $"unit {column.BehindFigures[0]}"
            : null,
            column.DatesWithTwoDigitYear > 0
                ? $"years of two figures in {column.DatesWithTwoDigitYear} cells"
                : null,
            column.DatesWithFirstOver12 > 0
                ? $"first figures over 12 in {column.DatesWithFirstOver12}"
                : null,
            column.DatesWithSecondOver12 > 0
                ? $"second figures over 12 in {column.DatesWithSecondOver12}"
                : null,
        ];
        return string.Join("; ", parts.OfType<string>());
    }
}
