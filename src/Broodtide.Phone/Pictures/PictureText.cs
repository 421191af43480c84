using System.Globalization;
using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>The English words of the pictures.</summary>
public static class PictureText
{
    public const string Fresh = "fresh";
    public const string Brackish = "brackish";
    public const string Sea = "sea";
    public const string Stage = "stage";
    public const string Entries = "entries";
    public const string Return = "return";
    public const string Hatch = "hatch";
    public const string Hatched = "hatched";
    public const string Count = "counted";
    public const string Now = "now";
    public const string NotMeasured = "not measured";
    public const string DoesNotFit = "does not fit";
    public const string Fresher = "fresher";
    public const string IsolateBy = "isolate by";
    public const string ChanceEachNight = "chance, each night, %";
    public const string Step = "step";
    public const string NoForecastYet = "no forecast yet";
    public const string LaterThanNineInTen = "later than nine in ten";

    private static readonly string[] Months =
    [
        "Jan",
        "Feb",
        "Mar",
        "Apr",
        "May",
        "Jun",
        "Jul",
        "Aug",
        "Sep",
        "Oct",
        "Nov",
        "Dec",
    ];

    private static readonly string[] Weekdays = ["", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

    public static string DayOfMonth(LocalDate date) => Whole(date.Day);

    public static string Month(LocalDate date) => Months[date.Month - 1];

    public static string Date(LocalDate date) => $"{Whole(date.Day)} {Months[date.Month - 1]}";

    public static string DateWithYear(LocalDate date) => $"{Date(date)} {Whole(date.Year)}";

    public static string Day(DateTimeZone zone, Instant at) => Date(at.InZone(zone).Date);

    public static string Time(DateTimeZone zone, Instant at)
    {
        var local = at.InZone(zone);
        return $"{Date(local.Date)}, {local.Hour.ToString("00", CultureInfo.InvariantCulture)}:{local.Minute.ToString("00", CultureInfo.InvariantCulture)}";
    }

    /// <summary>Two days as a range, the month once when it is the same.</summary>
    public static string Range(DateTimeZone zone, Instant from, Instant to)
    {
        var (a, b) = (from.InZone(zone).Date, to.InZone(zone).Date);
        return a == b ? Date(a)
            : a.Month == b.Month && a.Year == b.Year ? $"{Whole(a.Day)}–{Date(b)}"
            : $"{Date(a)}–{Date(b)}";
    }

    public static string Span(TideScene scene, Instant from, Instant to) =>
        to > from ? Range(scene.Record.Zone, from, to) : Day(scene.Record.Zone, from);

    /// <summary>A number of living things: whole.</summary>
    public static string Whole(double value) => Math.Round(value).ToString("0", CultureInfo.InvariantCulture);

    public static string Ppt(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    public static string Limit(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    public static string PerCent(double chance) => chance is > 0 and < 0.005 ? "<1" : Whole(chance * 100);

    public static string Millilitres(double value) => $"{Whole(value)} mL";

    public static string Bounds(Interval value) => $"{Whole(value.Low)}–{Whole(value.High)}";

    public static string Number(Interval value) =>
        value.Width == 0 ? Whole(value.Middle) : $"{Whole(value.Middle)} ({Bounds(value)})";

    public static string Larvae(double count) => count == 1 ? "1 larva" : $"{Whole(count)} larvae";

    public static string Juveniles(Interval value) => $"{Number(value)} juveniles";

    public static string Alive(Interval? value, bool rough) =>
        value is not { } alive ? ""
        : rough ? $"rough: {Bounds(alive)} alive"
        : $"{Number(alive)} alive";

    public static string AliveNow(Interval value, bool rough, bool wide) =>
        rough ? $"rough: {Bounds(value)} alive"
        : wide ? $"{Whole(value.Middle)} alive ({Bounds(value)})"
        : $"{Whole(value.Middle)} alive";

    public static string VesselWith(string name, Interval? alive) =>
        alive is { } some ? $"{name}, {Whole(some.Middle)}" : name;

    public static string AndMore(int count) => $"and {Whole(count)} more";

    public static string NowFlag(TideLineRecord record, bool wide)
    {
        var day = TideFleet.SeaDay(record, record.Now) is >= 0 and var passed ? $", day {Whole(passed)}" : "";
        var local = record.Now.InZone(record.Zone);
        return wide ? $"now, {Weekdays[(int)local.DayOfWeek]} {Date(local.Date)}{day}" : $"now{day}";
    }

    public static string MadeAt(TideLineRecord record) => $"forecast made {Time(record.Zone, record.MadeAt)}";

    public static string Mark(TideMarkKind kind) =>
        kind switch
        {
            TideMarkKind.Berried => "berried",
            TideMarkKind.Pale => "pale",
            TideMarkKind.Eyed => "eyed",
            TideMarkKind.Saddle => "saddle",
            TideMarkKind.Isolated => "isolated",
            TideMarkKind.Dropped => "dropped",
            _ => "carrying",
        };

    public static string MarkOn(DateTimeZone zone, TideMark mark, bool wide) =>
        wide ? $"{Mark(mark.Kind)} {Range(zone, mark.From, mark.To)}" : Mark(mark.Kind);

    public static string NightTitle(TideNight night) => $"night of {Date(night.Evening)}";

    public static string NightDetail(TideNight night) =>
        night.Collected is { } collected
            ? $"{Larvae(collected)} collected"
            : $"{PerCent(night.Chance)} % chance";

    public static string CrossingTitle(int count) => count == 1 ? "crossing" : $"{Whole(count)} crossings";

    public static string CrossingDetail(TideLineRecord record, TideCrossing crossing) =>
        $"{Number(crossing.Larvae)} larvae into {record.Vessels.FirstOrDefault(one => one.Id == crossing.VesselId)?.Name ?? Sea}";

    internal static string CrossingGroup(TideLineRecord record, DiveGroup group, bool wide)
    {
        var title = CrossingTitle(group.Dives.Count);
        return wide
            ? $"{title}, {Range(record.Zone, group.First.Crossing.At, group.Last.Crossing.At)}"
            : title;
    }

    internal static string CrossingLarvae(DiveGroup group, bool wide) =>
        wide && group.Dives.Count == 1
            ? $"{Number(group.First.Crossing.Larvae)} larvae"
            : Larvae(group.Dives.Sum(dive => dive.Crossing.Larvae.Middle));

    public static string Crossed(TideLineRecord record) =>
        $"{Whole(record.Crossings.Sum(crossing => crossing.Larvae.Middle))} crossed {Range(record.Zone, record.Crossings.Min(one => one.At), record.Crossings.Max(one => one.At))}";

    public static string End(TideEnd end) => end.Kind == TideEndKind.Home ? "home" : "ended";

    public static string EndOn(TideLineRecord record, TideEnd end) =>
        end.Kind == TideEndKind.Home ? $"home {Day(record.Zone, end.At)}"
        : record.Crossings.Count > 0 ? $"emptied {Day(record.Zone, end.At)}"
        : $"lost {Day(record.Zone, end.At)}";

    public static string NoneSeenFrom(DateTimeZone zone, Instant at) => $"none seen from {Day(zone, at)}";

    public static string NoneSeenSince(DateTimeZone zone, Instant at) => $"none seen since {Day(zone, at)}";

    public static string Breach(TideBreach breach) =>
        breach.TooSalt ? $"passes {Limit(breach.LimitPpt)}" : $"under {Limit(breach.LimitPpt)}";

    public static string NotSaltierThan(double ppt) => $"not saltier than {Limit(ppt)}";

    public static string NotFresherThan(double ppt) => $"not fresher than {Limit(ppt)}";

    public static string Stave(TideStave stave) =>
        stave switch
        {
            TideStave.Water => "water",
            TideStave.Food => "food",
            _ => "larvae",
        };

    public static string Entry(TideEntryMark mark) =>
        mark switch
        {
            TideEntryMark.Reading => "reading",
            TideEntryMark.TopUp => "topped up",
            TideEntryMark.WaterChange => "water changed",
            TideEntryMark.Fed => "fed",
            TideEntryMark.Light => "light, air or heat changed",
            TideEntryMark.Count => "counted",
            TideEntryMark.StageSample => "staged",
            TideEntryMark.Dead => "dead removed",
            TideEntryMark.Crossing => "crossing",
            TideEntryMark.Moved => "moved",
            TideEntryMark.Settled => "settlement seen",
            TideEntryMark.Returned => "returned",
            TideEntryMark.Photo => "photo",
            TideEntryMark.Ended => "ended",
            TideEntryMark.NeedsNewerVersion => "needs a newer version",
            _ => "note",
        };

    public static string EntryDetail(TideLineRecord record, TideEntry entry)
    {
        var by = entry.By is { } who ? $", by {who}" : "";
        var corrected = entry.Corrected ? ", corrected" : "";
        var future = entry.At > record.Now ? ", from a clock that runs ahead" : "";
        return $"{Time(record.Zone, entry.At)}{by}{corrected}{future}";
    }
}
