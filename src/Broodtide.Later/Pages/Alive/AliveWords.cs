using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Language;
using Broodtide.Phone.Pictures;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pages.Alive;

/// <summary>An estimate of larvae in words.</summary>
internal sealed class AliveWords(Words words, Formats formats, PhoneZone zone, DateTimeZone civil)
{
    private readonly PictureDays _days = new(words);

    // Under a twentieth is not worth a walk to the tank.
    private const double WorthIt = 0.05;

    /// <summary>About 119, 53 to 175.</summary>
    public IReadOnlyList<WordPart> About(Interval alive, bool isRough) =>
        isRough ? words.Parts("alive.rough", Whole(alive.Low), Whole(alive.High))
        : alive.Middle < 0.5 ? words.Parts("alive.few", Whole(Math.Max(1, alive.High)))
        : alive.Width == 0 ? words.Parts("alive.all", Whole(alive.Middle))
        : words.Parts("alive.about", Whole(alive.Middle), Whole(alive.Low), Whole(alive.High));

    /// <summary>Larvae that may still have lived when a run was ended; none where that was not to be expected.</summary>
    public IReadOnlyList<WordPart>? AtEnd(IReadOnlyList<AlivePoint> track, Instant ended)
    {
        var rows = track.Select(point => new TideRow(point.At, point.Alive)).ToList();
        return TideTrack.LastAboveZero(rows, ended) is not { } left ? null
            : left.Width == 0 ? words.Parts("alive.atEnd.all", Whole(left.Middle))
            : words.Parts("alive.atEnd", Whole(left.Low), Whole(left.High));
    }

    /// <summary>When larvae of a brood were last counted, in days.</summary>
    public string? LastCounted(House house, BroodId brood, Instant now)
    {
        var last = house
            .VesselsOf(brood)
            .SelectMany(vessel => house.Account.About(Subject.Of(vessel.Id)))
            .Where(told => told.Fact is CountMade && told.Happened.Latest <= now)
            .Select(told => (Instant?)told.Happened.Middle)
            .Max();
        if (last is not { } counted)
        {
            return null;
        }

        var days = Period.DaysBetween(zone.Here(counted).Date, zone.Here(now).Date);
        return days switch
        {
            <= 0 => words["alive.counted.today"],
            1 => words["alive.counted.yesterday"],
            _ => words["alive.counted", days],
        };
    }

    /// <summary>The one look that would help most.</summary>
    public IReadOnlyList<WordPart>? Helps(PopulationEstimate estimate)
    {
        if (estimate.WhatHelps.Count == 0)
        {
            return null;
        }

        var look = estimate.WhatHelps[0];
        var isNumber = look.AliveNarrowedShare >= look.SettlementNarrowedShare;
        var narrowed = isNumber ? look.AliveNarrowedShare : look.SettlementNarrowedShare;
        return narrowed < WorthIt
            ? words.Parts("alive.helps.nothing")
            : words.Parts(
                isNumber ? "alive.helps.number" : "alive.helps.day",
                words["alive.look." + look.Kind],
                words["alive.tenths." + (int)Math.Clamp(Math.Round(10 * narrowed), 1, 9)]
            );
    }

    /// <summary>The bench at which that look is made.</summary>
    public static string BenchOf(PopulationEstimate estimate) =>
        estimate.WhatHelps is [{ Kind: HelpfulKind.TenStaged }, ..] ? "stages" : "count";

    /// <summary>A day of the settlement with its doubt: over, perhaps over, or to come.</summary>
    public (IReadOnlyList<WordPart> Said, string? Doubt) Day(InstantRange range, Instant now)
    {
        if (range.Late <= now)
        {
            return (words.Parts("alive.settles.over"), null);
        }

        if (range.Middle <= now)
        {
            return (
                words.Parts("alive.settles.perhaps"),
                words["alive.settles.by", formats.Day(zone.Here(range.Late).Date)]
            );
        }

        var said = words.Parts("alive.settles.day", formats.Day(zone.Here(range.Middle).Date));
        return (
            said,
            zone.Here(range.Early).Date == zone.Here(range.Late).Date
                ? null
                : _days.Range(Instant.Max(range.Early, now).InZone(civil).Date, range.Late.InZone(civil).Date)
        );
    }

    /// <summary>Nobody has half a larva.</summary>
    public string Whole(double number) => formats.Number(Math.Round(number), 0);

    /// <summary>A whole number with its bounds.</summary>
    public string Whole(Interval number) =>
        number.Width == 0
            ? Whole(number.Middle)
            : $"{Whole(number.Middle)} ({Whole(number.Low)}–{Whole(number.High)})";
}
