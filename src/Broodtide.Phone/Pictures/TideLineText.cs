using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>The tide line in English: its summary, its lines, and what the cross-hair reads.</summary>
public static class TideLineText
{
    private static readonly string[] LongMonths =
    [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];

    public static string LongDay(DateTimeZone zone, Instant at)
    {
        var date = at.InZone(zone).Date;
        return $"{PictureText.Whole(date.Day)} {LongMonths[date.Month - 1]}";
    }

    /// <summary>One line: when, on which day of the sea phase, what.</summary>
    public static string Line(TideLineRecord record, TideWord word)
    {
        var said =
            Said(record, word)
            + (word.Corrected && word.Code != TideWordCode.CorrectedEntry ? " (corrected)" : "");
        return word.Tense switch
        {
            TideTense.Now => $"Now: {said}",
            TideTense.Expected => $"Expected {When(record, word)}: {said}",
            _ => $"{When(record, word)}: {said}",
        };
    }

    /// <summary>The picture in one paragraph: where it is, what was, what comes, what needs minding.</summary>
    public static string Summary(TideLineRecord record)
    {
        var words = TideWords.Of(record);
        var parts = new List<string> { $"Tide line of {record.Name}.", Standing(record) };
        parts.AddRange(Was(record));
        foreach (
            var word in words.Where(word =>
                word.Tense == TideTense.Expected
                && word.Code != TideWordCode.NightChance
                && word.Code != TideWordCode.BreachExpected
            )
        )
        {
            parts.Add($"Expected: {Said(record, word)}.");
        }

        parts.AddRange(Minding(record, words));
        return string.Join(" ", parts.Where(part => part.Length > 0));
    }

    /// <summary>What the cross-hair reads at an instant.</summary>
    public static string Readout(TideLineRecord record, TideReadout readout)
    {
        var parts = new List<string>();
        if (!readout.InSea)
        {
            parts.Add(
                record.Brood.FirstSeenBerried is { } from && readout.At >= from
                    ? "in fresh water"
                    : "before the brood"
            );
        }
        else
        {
            parts.Add(
                readout.SalinityPpt is { } ppt
                    ? $"{PictureText.Ppt(ppt.Middle)} ppt"
                    : "salinity not measured"
            );
        }

        if (readout.Alive is { } alive)
        {
            parts.Add(
                readout.AliveIsRough
                    ? $"rough: {PictureText.Bounds(alive)} alive"
                    : $"about {PictureText.Whole(alive.Middle)} alive"
            );
        }

        if (readout.Stages.Count > 0)
        {
            parts.Add(Joined(readout.Stages.Select(stage => stage.Stage.Name)));
        }

        var expected = readout.Expected ? "expected " : "";
        return $"{expected}{PictureText.Day(record.Zone, readout.At)}: {string.Join(", ", parts)}";
    }

    /// <summary>The stages of a row of the table.</summary>
    public static string Stages(TideReadout readout) =>
        string.Join(
            ", ",
            readout.Stages.Select(stage => $"{stage.Stage.Name} {PictureText.PerCent(stage.Share)}\u00a0%")
        );

    private static string When(TideLineRecord record, TideWord word)
    {
        var day = word.SeaDay is >= 0 and var passed ? $", day {PictureText.Whole(passed)}" : "";
        if (word.Until is { } until)
        {
            return $"{LongDay(record.Zone, word.At)} to {LongDay(record.Zone, until)}{day}";
        }

        return $"{LongDay(record.Zone, word.At)}{day}";
    }

    private static string Said(TideLineRecord record, TideWord word) =>
        word.Code switch
        {
            TideWordCode.BroodMark => Mark(word.Mark),
            TideWordCode.LastSeenCarrying => "last seen carrying",
            TideWordCode.NightCollected =>
                $"hatching, {PictureText.Larvae(word.Number!.Value.Middle)} collected",
            TideWordCode.NightChance =>
                $"hatching in the night before, {PictureText.PerCent(word.Chance ?? 0)} per cent",
            TideWordCode.Crossing => $"crossing, {Larvae(word.Number)} into {word.Name ?? "sea water"}",
            TideWordCode.Count => $"counted in {word.Name ?? "the vessel"}, {Larvae(word.Number)}",
            TideWordCode.Joined => $"{word.Name} poured into {word.OtherName ?? "another vessel"}",
            TideWordCode.Split => $"{word.Name} parted from {word.OtherName ?? "another vessel"}",
            TideWordCode.DoesNotFit =>
                $"a reading of {PictureText.Ppt(word.Number!.Value.Middle)} ppt in {word.Name} does not fit",
            TideWordCode.Returned => "juveniles moved to fresh water",
            TideWordCode.LastSeenAlive => "last seen alive",
            TideWordCode.NoneSeen => "none seen from here on",
            TideWordCode.EndedHome => "home in fresh water",
            TideWordCode.EndedGivenUp => GivenUp(record, word),
            TideWordCode.NeedsNewerVersion => "an entry that needs a newer version",
            TideWordCode.InTheFuture => "an entry from a clock that runs ahead, drawn at now",
            TideWordCode.CorrectedEntry => "an entry was corrected",
            TideWordCode.NowCarried => "still carried",
            TideWordCode.NowLaterThanNineInTen => "carried longer than nine broods in ten",
            TideWordCode.NowSalinity => word.Number is { } ppt
                ? $"{word.Name} at {PictureText.Ppt(ppt.Middle)} ppt ({PictureText.Ppt(ppt.Low)}–{PictureText.Ppt(ppt.High)})"
                : $"{word.Name}, salinity not measured",
            TideWordCode.NowAlive => (word.Name is { } where ? $"in {where} " : "")
                + PictureText.Alive(word.Number, word.Rough),
            TideWordCode.NowOfOtherRuns =>
                $"{PictureText.Number(word.Number!.Value)} of another run share {word.Name}",
            TideWordCode.NowStages => Joined(
                word.Stages.Select(stage => $"{stage.Stage.Name} {PictureText.PerCent(stage.Share)} %")
            ),
            TideWordCode.NowEntries => $"{PictureText.Whole(word.Number!.Value.Middle)} entries written",
            TideWordCode.HatchExpected => $"hatch, {Days(record, word.Days!)}",
            TideWordCode.BreachExpected =>
                $"{word.Name ?? "the vessel"} becomes {(word.TooSalt ? "saltier" : "fresher")} than {PictureText.Limit(word.LimitPpt ?? 0)} ppt",
            TideWordCode.SettlementBeginsExpected => $"the first settles, {Days(record, word.Days!)}",
            TideWordCode.SettlementHalfExpected => $"half have settled, {Days(record, word.Days!)}",
            TideWordCode.SettlementEndsExpected => $"nine in ten have settled, {Days(record, word.Days!)}",
            TideWordCode.ReturnExpected => $"return to fresh water, {Days(record, word.Days!)}",
            _ => $"{PictureText.Number(word.Number!.Value)} juveniles to expect",
        };

    private static string Mark(TideMarkKind? kind) =>
        kind switch
        {
            TideMarkKind.Berried => "first seen berried",
            TideMarkKind.Pale => "eggs pale",
            TideMarkKind.Eyed => "eggs eyed",
            TideMarkKind.Saddle => "a new saddle",
            TideMarkKind.Isolated => "isolated",
            TideMarkKind.Dropped => "eggs dropped",
            _ => "still carrying",
        };

    private static string GivenUp(TideLineRecord record, TideWord word) =>
        (record.Crossings.Count > 0 ? "ended by the keeper, the vessel emptied" : "lost in fresh water")
        + (word.Number is { High: > 0 } left ? $"; {PictureText.Bounds(left)} may still have lived" : "");

    private static string Standing(TideLineRecord record)
    {
        if (record.Ends.Count > 0)
        {
            return string.Join(
                " ",
                record.Ends.Select(end =>
                    $"It {(end.Kind == TideEndKind.Home ? "came home" : "was ended by the keeper")} on {LongDay(record.Zone, end.At)}."
                )
            );
        }

        var readout = TideReadout.Of(record, record.Now);
        var day = TideFleet.SeaDay(record, record.Now);
        var place = readout switch
        {
            { InSea: false } => "Now carried in fresh water",
            { SalinityPpt: { } ppt } =>
                $"Now day {PictureText.Whole(day ?? 0)} in the sea at {PictureText.Ppt(ppt.Middle)} ppt",
            _ => $"Now day {PictureText.Whole(day ?? 0)} in the sea, salinity not measured",
        };
        var alive =
            readout.Alive is not { } some ? ""
            : record.AliveIsRough
                ? $", roughly {PictureText.Whole(some.Low)} to {PictureText.Whole(some.High)} alive"
            : $", about {PictureText.Whole(some.Middle)} alive, {PictureText.Whole(some.Low)} to {PictureText.Whole(some.High)}";
        var stage =
            readout.Stages.Count > 0
                ? $", mostly {Joined(readout.Stages.Select(one => one.Stage.Name))}"
                : "";
        return $"{place}{alive}{stage}.";
    }

    private static IEnumerable<string> Was(TideLineRecord record)
    {
        if (record.Brood.FirstSeenBerried is { } berried)
        {
            yield return $"First seen berried {LongDay(record.Zone, berried)}.";
        }

        if (record.Crossings.Count > 0)
        {
            var (first, last) = (record.Crossings.Min(one => one.At), record.Crossings.Max(one => one.At));
            var larvae = PictureText.Larvae(record.Crossings.Sum(one => one.Larvae.Middle));
            yield return $"{(record.Crossings.Count == 1 ? "One crossing" : $"{PictureText.Whole(record.Crossings.Count)} crossings")}, {PictureText.Range(record.Zone, first, last)}, with {larvae}.";
        }

        if (record.NoneSeenSince is { } none)
        {
            yield return $"None seen since {LongDay(record.Zone, none)}; that is not the same as none alive.";
        }
    }

    private static IEnumerable<string> Minding(TideLineRecord record, IReadOnlyList<TideWord> words)
    {
        var minded = words.Where(word =>
            word.Code
                is TideWordCode.BreachExpected
                    or TideWordCode.NowLaterThanNineInTen
                    or TideWordCode.DoesNotFit
        );
        foreach (var word in minded)
        {
            var when = word.Tense == TideTense.Now ? "" : $"{LongDay(record.Zone, word.At)}, ";
            yield return $"Mind: {when}{Said(record, word)}.";
        }
    }

    private static string Larvae(Interval? number) =>
        number is { } some
            ? $"{PictureText.Number(some)} {(some.Middle == 1 ? "larva" : "larvae")}"
            : "larvae";

    private static string Days(TideLineRecord record, TideDays days) =>
        $"most likely about {LongDay(record.Zone, days.Middle)}, nine in ten sure between {LongDay(record.Zone, days.Early)} and {LongDay(record.Zone, days.Late)}";

    private static string Joined(IEnumerable<string> parts)
    {
        var list = parts.ToList();
        return list.Count < 2 ? string.Concat(list) : $"{string.Join(", ", list.SkipLast(1))} and {list[^1]}";
    }
}
