using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.OldNotes;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.OldNotes;

public class NotesReadingTests
{
    private static readonly Instant Now = At(6, 1, 12);

    private static readonly NotesMap Usual = new()
    {
        Delimiter = ';',
        DateColumn = 0,
        Order = DateOrder.DayMonthYear,
        Zone = "Europe/Zurich",
        Decimal = DecimalMark.Comma,
        Vessels = new Dictionary<string, string> { [""] = "Jar" },
        Columns = [new(1, ColumnMeaning.Reading, "Cel")],
    };

    private static async Task<Parsed<NotesRead>> ReadAsync(
        string text,
        NotesMap? map = null,
        Account? account = null,
        byte[]? bytes = null
    )
    {
        using var stream = new MemoryStream(bytes ?? Encoding.UTF8.GetBytes(text));
        return await NotesReading.OfAsync(
            stream,
            map ?? Usual,
            account ?? new Account(),
            Now,
            name => name == "Jar" ? Jar : null,
            cancellation: TestContext.Current.CancellationToken
        );
    }

    private static async Task<NotesRead> TakenAsync(
        string text,
        NotesMap? map = null,
        Account? account = null
    ) => (await ReadAsync(text, map, account)).Value;

    [Fact]
    public async Task A_row_becomes_an_entry_for_each_cell_that_means_something()
    {
        var map = Usual with
        {
            Columns =
            [
                new(1, ColumnMeaning.Reading, "Cel"),
                new(2, ColumnMeaning.Count, Method: CountMethod.Glance),
                new(3, ColumnMeaning.Dead),
                new(4, ColumnMeaning.Note),
            ],
        };
        var read = await TakenAsync(
            "Datum;Temp;Larven;tot;Notiz\n24.05.2026 18:40;24,5;120;3;\"trüb; roch\"\n25.05.2026 18:40;;;-;\n",
            map
        );
        Assert.Equal(2, read.Rows);
        Assert.Equal(
            [
                new ReadingTaken(new TypedNumber("24,5", "Cel", 24.5), Jar),
                new DeadRemoved(Jar, 3),
                new NoteWritten("trüb; roch", Jar),
            ],
            read.Facts.Select(fact => fact.Fact).Where(fact => fact is not CountMade)
        );
        var count = Assert.Single(read.Facts, fact => fact.Fact is CountMade);
        Assert.Equal(120, ((CountMade)count.Fact).Samples.Single().Seen);
        Assert.All(read.Facts, fact => Assert.Equal(Happened.At(At(5, 24, 18, 40)), fact.Happened));
        Assert.All(read.Facts, fact => Assert.Equal(2, fact.Row));
        Assert.Empty(read.Hindrances);
    }

    [Fact]
    public void What_could_be_read_in_two_ways_is_asked()
    {
        var asked = NotesQuestions.Of(
            new() { Columns = [new(1, ColumnMeaning.Reading), new(2, ColumnMeaning.Count)] },
            3
        );
        Assert.Equal(
            [
                "notes-ask-date",
                "notes-ask-order",
                "notes-ask-zone",
                "notes-ask-decimal",
                "notes-ask-vessel",
                "notes-ask-unit",
                "notes-ask-method",
            ],
            asked.Select(question => question.Code)
        );
        Assert.Empty(NotesQuestions.Of(Usual, 2));
        Assert.Equal("notes-column-not-there", Assert.Single(NotesQuestions.Of(Usual, 1)).Code);
    }

    [Theory]
    [InlineData("03.04.2026", DateOrder.DayMonthYear, 4, 3)]
    [InlineData("03/04/2026", DateOrder.MonthDayYear, 3, 4)]
    [InlineData("2026-03-04", DateOrder.YearMonthDay, 3, 4)]
    public async Task A_date_is_read_in_the_order_that_was_said(
        string date,
        DateOrder order,
        int month,
        int day
    )
    {
        var read = await TakenAsync($"d;t\n{date} 10:00;20\n", Usual with { Order = order });
        Assert.Equal(
            new LocalDateTime(2026, month, day, 10, 0),
            read.Facts.Single().Happened.Earliest.InZone(Zone).LocalDateTime
        );
    }

    [Theory]
    [InlineData("24.5.26", "notes-year-two-figures")]
    [InlineData("13.13.2026", "notes-date-impossible")]
    [InlineData("29.02.2025", "notes-date-impossible")]
    [InlineData("24.5", "notes-date-unreadable")]
    [InlineData("May 24", "notes-date-unreadable")]
    [InlineData("24.5.2026 25:00", "notes-time-unreadable")]
    [InlineData("29.03.2026 02:30", "notes-time-skipped")]
    [InlineData("24.5.2027 10:00", "notes-date-ahead")]
    [InlineData("", "notes-date-missing")]
    public async Task A_date_that_cannot_be_is_said_and_nothing_is_written(string date, string code)
    {
        var read = await TakenAsync($"d;t\n{date};20,5\n24.05.2026 10:00;20,5\n");
        var trouble = Assert.Single(read.Troubles);
        Assert.Equal((2L, code), (trouble.Row, trouble.Reason.Code));
        Assert.Equal("notes-rows-unreadable", Assert.Single(read.Hindrances).Code);
        var without = await TakenAsync(
            $"d;t\n{date};20,5\n24.05.2026 10:00;20,5\n",
            Usual with
            {
                LeaveOutUnreadable = true,
            }
        );
        Assert.Empty(without.Hindrances);
        Assert.Single(without.Facts);
    }

    [Theory]
    [InlineData("24.5.26", 2000, 2026)]
    [InlineData("24.5.99", 1950, 1999)]
    [InlineData("24.5.26", 1950, 2026)]
    public async Task A_year_of_two_figures_lies_in_the_hundred_years_that_were_said(
        string date,
        int from,
        int year
    )
    {
        var read = await TakenAsync($"d;t\n{date} 10:00;20\n", Usual with { TwoDigitYearsFrom = from });
        Assert.Equal(year, read.Facts.Single().Happened.Earliest.InZone(Zone).Year);
    }

    [Fact]
    public async Task A_day_without_a_time_is_some_time_of_that_day_and_an_hour_that_came_twice_is_either()
    {
        var read = await TakenAsync("d;t\n24.05.2026;20\n26.10.2025 02:30;20\n");
        Assert.Equal(At(5, 24, 0), read.Facts[0].Happened.Earliest);
        Assert.Equal(At(5, 24, 23, 59) + Duration.FromSeconds(59), read.Facts[0].Happened.Latest);
        Assert.Equal(Duration.FromHours(1), read.Facts[1].Happened.Latest - read.Facts[1].Happened.Earliest);
    }

    [Theory]
    [InlineData("24.5", "notes-number-mark")]
    [InlineData("1.024,5", "notes-number-mark")]
    [InlineData("76 F", "notes-unit-differs")]
    [InlineData("warm", "notes-number-unreadable")]
    [InlineData("5000", "number-impossible")]
    public async Task Another_decimal_mark_another_unit_and_no_number_are_said(string cell, string code)
    {
        var read = await TakenAsync($"d;t\n24.05.2026 10:00;24,5 °C\n25.05.2026 10:00;{cell}\n");
        Assert.Equal(code, Assert.Single(read.Troubles).Reason.Code);
        Assert.Single(read.Facts);
    }

    [Fact]
    public async Task Rows_that_say_it_again_are_said_with_their_lines_in_the_file_and_against_the_journal()
    {
        var kept = new KeptJournal();
        kept.Write(At(5, 24, 10), new ReadingTaken(TypedNumber.Of(24.5, "Cel"), Jar));
        const string text =
            "d;t\n24.05.2026 10:00;24,5\n25.05.2026 10:00;24,6\n25.05.2026 10:00;24,60\n26.05.2026 10:00;24,6\n";
        var read = await TakenAsync(text, account: kept.Account());
        Assert.Equal((1L, 1L), (read.DoubledInFile, read.DoubledInJournal));
        Assert.Equal([2L, 4L], read.FirstDoubled);
        Assert.Equal("notes-rows-doubled", Assert.Single(read.Hindrances).Code);
        Assert.Equal(
            2,
            (await TakenAsync(text, Usual with { Doubles = DoubleRows.LeaveOut }, kept.Account())).Facts.Count
        );
        Assert.Equal(
            4,
            (await TakenAsync(text, Usual with { Doubles = DoubleRows.Keep }, kept.Account())).Facts.Count
        );
    }

    [Fact]
    public async Task A_loggers_rows_are_thinned_to_one_in_so_many_minutes()
    {
        var rows = Enumerable
            .Range(0, 600)
            .Select(at => $"24.05.2026 {at / 60:D2}:{at % 60:D2};24,{at % 10}");
        var read = await TakenAsync("d;t\n" + string.Join('\n', rows), Usual with { OneInMinutes = 60 });
        Assert.Equal(10, read.Facts.Count);
        Assert.Equal(590, read.Thinned);
        Assert.All(read.Facts, fact => Assert.Equal(0, fact.Happened.Earliest.InZone(Zone).Minute));
    }

    [Fact]
    public async Task More_entries_than_a_journal_takes_in_one_go_are_refused()
    {
        var rows = Enumerable
            .Range(0, NotesReading.MostFacts + 1)
            .Select(at =>
                $"{1 + (at / 86400):D2}.05.2026 {at / 3600 % 24:D2}:{at / 60 % 60:D2}:{at % 60:D2};24"
            );
        var read = await TakenAsync("d;t\n" + string.Join('\n', rows));
        Assert.Equal("notes-too-many", Assert.Single(read.Hindrances).Code);
    }

    [Fact]
    public async Task Bytes_that_are_no_letters_stop_it_with_their_row_and_latin_letters_are_read_when_said()
    {
        byte[] latin = [.. "d;t\n24.05.2026 10:00;24,5 "u8, 0xb0, .. "C\n"u8];
        Assert.Equal("notes-file-unreadable", (await ReadAsync("", bytes: latin)).Reason!.Code);
        Assert.Single((await ReadAsync("", Usual with { IsLatin1 = true }, bytes: latin)).Value.Facts);
    }

    [Fact]
    public async Task It_can_be_stopped_and_tells_how_far_it_came()
    {
        var text = "d;t\n" + string.Concat(Enumerable.Repeat("24.05.2026 10:00;24,5\n", 50_000));
        using var stop = new CancellationTokenSource();
        var heard = new List<NotesProgress>();
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
            NotesReading.OfAsync(
                stream,
                Usual,
                new Account(),
                Now,
                _ => Jar,
                progress =>
                {
                    heard.Add(progress);
                    if (heard.Count == 3)
                    {
                        stop.Cancel();
                    }

                    return ValueTask.CompletedTask;
                },
                stop.Token
            )
        );
        Assert.Equal(3, heard.Count);
        Assert.True(heard[2].Bytes > heard[0].Bytes);
    }

    [Fact]
    public async Task A_first_look_tells_what_is_mixed_and_takes_nothing_for_an_answer()
    {
        using var stream = new MemoryStream(
            Encoding.UTF8.GetBytes("Datum;Temp;Salz\n24.5.26;24,5 °C;1.024\n25.5.26;76 F;33,5\n")
        );
        var survey = (
            await NotesSurvey.OfAsync(stream, cancellation: TestContext.Current.CancellationToken)
        ).Value;
        Assert.Equal(';', survey.Delimiter);
        Assert.Equal(["Datum", "Temp", "Salz"], survey.Columns.Select(column => column.Heading));
        Assert.Equal((2L, 2L), (survey.Columns[0].TwoDigitYears, survey.Columns[0].FirstOver12));
        Assert.Equal(["°C", "F"], survey.Columns[1].Letters);
        Assert.Equal((1L, 1L), (survey.Columns[2].WithComma, survey.Columns[2].WithPoint));
    }

    [Fact]
    public void A_mapping_is_read_by_the_headings_of_its_file()
    {
        var map = NotesMapText
            .Read(
                """
                {
                  "delimiter": ";", "dateColumn": "Datum", "dateOrder": "day-month-year", "twoDigitYearsFrom": 2000,
                  "zone": "Europe/Zurich", "decimal": "comma", "vessel": "Jar", "doubles": "leave-out",
                  "columns": [{"column": "temp", "as": "reading", "unit": "Cel"}, {"column": "Larven", "as": "count", "method": "glance"}]
                }
                """u8.ToArray(),
                ["Datum", "Temp", "Larven"]
            )
            .Value;
        Assert.Equal((0, DateOrder.DayMonthYear, 2000), (map.DateColumn, map.Order, map.TwoDigitYearsFrom));
        Assert.Equal(
            [new(1, ColumnMeaning.Reading, "Cel"), new(2, ColumnMeaning.Count, null, CountMethod.Glance)],
            map.Columns
        );
        Assert.Equal(DoubleRows.LeaveOut, map.Doubles);
        Assert.Equal(
            "map-column-not-there",
            NotesMapText.Read("""{"dateColumn": "Tag"}"""u8.ToArray(), ["Datum"]).Reason!.Code
        );
        Assert.Equal("map-unreadable", NotesMapText.Read("{"u8.ToArray(), []).Reason!.Code);
    }
}
