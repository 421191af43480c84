using Broodtide.Phone.Pictures;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Tests.Pictures;

public sealed class TideLineWordsTests
{
    public static TheoryData<string> Cases() => [.. RunCases.All.Select(one => one.Name)];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Everything_a_finger_can_find_in_the_picture_stands_in_the_list(string name)
    {
        var record = Record(name);
        var told = TideWords.Of(record).Select(word => word.At).ToHashSet();
        foreach (
            var target in TideLineLayout
                .Lay(Spoken.Pictures, record, new(390))
                .Targets.Where(target => target.Rank is 1 or 2 or 3)
        )
        {
            Assert.Contains(target.At, told);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_list_tells_every_crossing_count_mark_and_end_once(string name)
    {
        var record = Record(name);
        var words = TideWords.Of(record);
        Assert.Equal(record.Crossings.Count, words.Count(word => word.Code == TideWordCode.Crossing));
        Assert.Equal(record.Counts.Count, words.Count(word => word.Code == TideWordCode.Count));
        Assert.Equal(
            record.Ends.Count,
            words.Count(word => word.Code is TideWordCode.EndedHome or TideWordCode.EndedGivenUp)
        );
        foreach (var mark in record.Brood.Marks)
        {
            Assert.Single(words, word => word.Mark == mark.Kind);
        }

        foreach (var vessel in record.Vessels.Where(_ => record.Vessels.Count > 1))
        {
            Assert.Contains(words, word => word.Name == vessel.Name);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void What_was_comes_first_then_what_is_then_what_is_expected(string name)
    {
        var record = Record(name);
        var words = TideWords.Of(record);
        Assert.Equal(words.Select(word => word.Tense).Order(), words.Select(word => word.Tense));
        foreach (var tense in new[] { TideTense.Past, TideTense.Expected })
        {
            var times = words.Where(word => word.Tense == tense).Select(word => word.At).ToList();
            Assert.Equal(times.Order(), times);
        }

        foreach (var word in words)
        {
            var line = Spoken.TideLine.Line(record, word);
            Assert.Matches("^[A-Z0-9]", line);
            Assert.DoesNotContain("  ", line, StringComparison.Ordinal);
            Assert.Equal(
                word.Tense == TideTense.Expected,
                line.StartsWith("Expected ", StringComparison.Ordinal)
            );
        }

        Assert.StartsWith(
            $"Tide line of {record.Name}.",
            Spoken.TideLine.Summary(record),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_crossing_is_told_with_its_day_its_number_and_its_vessel()
    {
        var record = RunCases.ThreeCrossings();
        var word = TideWords.Of(record).First(word => word.Code == TideWordCode.Crossing);
        Assert.Equal(
            "23 April, day 0: crossing, 62 (55–70) larvae into Jar A",
            Spoken.TideLine.Line(record, word)
        );
    }

    [Fact]
    public void The_summary_says_where_it_is_what_was_what_comes()
    {
        var said = Spoken.TideLine.Summary(RunCases.ThreeCrossings());
        Assert.Contains(
            "Now day 27 in the sea at 33.0 ppt, about 118 alive, 79 to 161",
            said,
            StringComparison.Ordinal
        );
        Assert.Contains("3 crossings, 23–25 Apr, with 251 larvae.", said, StringComparison.Ordinal);
        Assert.Contains(
            "Expected: return to fresh water, most likely about 13 June, nine in ten sure between 6 June and 24 June.",
            said,
            StringComparison.Ordinal
        );
        Assert.Contains("does not fit", said, StringComparison.Ordinal);
    }

    [Fact]
    public void An_entry_of_an_unknown_kind_one_from_the_future_and_a_corrected_one_are_said()
    {
        var record = RunCases.OddEntries();
        var lines = TideWords.Of(record).Select(word => Spoken.TideLine.Line(record, word)).ToList();
        Assert.Contains(
            lines,
            line => line.EndsWith("an entry that needs a newer version", StringComparison.Ordinal)
        );
        Assert.Contains(lines, line => line.Contains("a clock that runs ahead", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("into Jar A (corrected)", StringComparison.Ordinal));
    }

    [Fact]
    public void None_seen_is_never_told_as_none_alive()
    {
        var said = Spoken.TideLine.Summary(RunCases.VesselKept());
        Assert.Contains("not the same as none alive", said, StringComparison.Ordinal);
        var record = RunCases.Ended(4);
        Assert.Contains(
            TideWords.Of(record),
            word =>
                word.Code == TideWordCode.EndedGivenUp
                && Spoken
                    .TideLine.Line(record, word)
                    .EndsWith("0–30 may still have lived", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void The_weeks_table_begins_on_mondays_and_knows_the_forecast()
    {
        var record = RunCases.ThreeCrossings();
        var weeks = TideWords.Weeks(record);
        Assert.All(
            weeks,
            week => Assert.Equal(NodaTime.IsoDayOfWeek.Monday, week.At.InZone(record.Zone).DayOfWeek)
        );
        Assert.Contains(weeks, week => week.Expected);
        Assert.Contains(weeks, week => !week.Expected);
    }

    private static TideLineRecord Record(string name) => RunCases.All.Single(one => one.Name == name).Record;
}
