using System.Globalization;
using Broodtide.Phone.Language;
using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>The words that stand in the pictures, and numbers and days as they are written there.</summary>
public sealed class PictureText
{
    private readonly Words _words;
    private readonly Formats _formats;

    internal PictureText(Words words, Formats formats)
    {
        _words = words;
        _formats = formats;
        Days = new(words);
    }

    /// <summary>Days, shorter than elsewhere.</summary>
    internal PictureDays Days { get; }

    public string Fresh => _words["pic.fresh"];
    public string Brackish => _words["pic.brackish"];
    public string Sea => _words["pic.sea"];
    public string Stage => _words["pic.stage"];
    public string Entries => _words["pic.entries"];
    public string Return => _words["pic.return"];
    public string Hatch => _words["pic.hatch"];
    public string Hatched => _words["pic.hatched"];
    public string Count => _words["pic.counted"];
    public string Now => _words["pic.now"];
    public string NotMeasured => _words["pic.notMeasured"];
    public string DoesNotFit => _words["pic.doesNotFit"];
    public string Fresher => _words["pic.fresher"];
    public string IsolateBy => _words["pic.isolateBy"];

    public string IsolateByDate(LocalDate date) => _words["pic.isolateBy.date", Date(date)];

    public string ChanceEachNight => _words["pic.chanceEachNight"];
    public string Step => _words["pic.step"];
    public string NoForecastYet => _words["pic.noForecast"];
    public string AsItIs => _words["whatif.asItIs"];
    public string WithTheChange => _words["whatif.changed"];

    /// <summary>A number beside a scale that begins at nothing.</summary>
    public string Axis(double value) =>
        value == 0 ? "0"
        : value >= 10_000 ? $"{_formats.Plain(value / 1000, 1)}\u202fk"
        : _formats.Plain(
            value,
            value >= 10 ? 0
                : value >= 0.1 ? 2
                : 5
        );

    /// <summary>Three figures of a number, however large or small.</summary>
    public string ThreeFigures(double value) => _formats.ThreeFigures(value);

    public string LaterThanNineInTen => _words["pic.later"];

    public static string DayOfMonth(LocalDate date) => Figure(date.Day);

    public string Month(LocalDate date) => Days.Month(date);

    public string Date(LocalDate date) => Days.Date(date);

    public string DateWithYear(LocalDate date) => Days.DateWithYear(date);

    public string Day(DateTimeZone zone, Instant at) => Days.Date(at.InZone(zone).Date);

    public string Time(DateTimeZone zone, Instant at)
    {
        var local = at.InZone(zone);
        return $"{Date(local.Date)}, {_formats.Time(local.TimeOfDay)}";
    }

    /// <summary>Two days as a range, the month once when it is the same.</summary>
    public string Range(DateTimeZone zone, Instant from, Instant to) =>
        Days.Range(from.InZone(zone).Date, to.InZone(zone).Date);

    public string Span(TideScene scene, Instant from, Instant to) =>
        to > from ? Range(scene.Record.Zone, from, to) : Day(scene.Record.Zone, from);

    /// <summary>A whole number as machines write it, for attributes that people do not read.</summary>
    public static string Figure(int value) => value.ToString(CultureInfo.InvariantCulture);

    /// <summary>A number of living things: whole.</summary>
    public string Whole(double value) => _formats.Number(Math.Round(value), 0);

    public string Ppt(double value) => _formats.Number(value, 1);

    public string PptRead(double value) => _words["tide.read.ppt", Ppt(value)];

    public string ReadyFrom(bool isFilm) => _words[isFilm ? "pic.culture.ready.film" : "pic.culture.ready"];

    public string Counted(bool isFilm) => _words[isFilm ? "pic.culture.looked" : "pic.culture.counted"];

    /// <summary>A density of a culture in as few signs as it has, or the share that a film covers.</summary>
    public string Cells(double density, bool isFilm) =>
        isFilm ? _words["pic.culture.percent", _formats.Plain(100 * density, density < 0.01 ? 1 : 0)]
        : density >= 1e6 ? _words["pic.culture.million", _formats.Plain(density / 1e6, density < 1e7 ? 2 : 0)]
        : density >= 1e3
            ? _words["pic.culture.thousand", _formats.Plain(density / 1e3, density < 1e4 ? 1 : 0)]
        : _formats.Plain(density, density < 10 ? 1 : 0);

    public string Millilitres(double value) => $"{Whole(value)} mL";

    public string Limit(double value) => _formats.Plain(value, 1);

    public string PerCent(double chance) => chance is > 0 and < 0.005 ? "<1" : Whole(chance * 100);

    public string Bounds(Interval value) => $"{Whole(value.Low)}–{Whole(value.High)}";

    public string Number(Interval value) =>
        value.Width == 0 ? Whole(value.Middle) : $"{Whole(value.Middle)} ({Bounds(value)})";

    public string Larvae(double count) => _words["pic.larvae", Whole(count), Math.Round(count)];

    /// <summary>A number with its bounds, and what it counts.</summary>
    public string Larvae(Interval number) => _words["pic.larvae", Number(number), number.Middle];

    public string Juveniles(Interval value) => _words["pic.juveniles", Number(value)];

    public string Alive(Interval? value, bool rough) =>
        value is not { } alive ? ""
        : rough ? _words["pic.alive.rough", Bounds(alive)]
        : _words["pic.alive", Number(alive)];

    public string AliveNow(Interval value, bool rough, bool wide) =>
        rough ? _words["pic.alive.rough", Bounds(value)]
        : wide ? _words["pic.alive.wide", Whole(value.Middle), Bounds(value)]
        : _words["pic.alive", Whole(value.Middle)];

    public string VesselWith(string name, Interval? alive) =>
        alive is { } some ? $"{name}, {Whole(some.Middle)}" : name;

    public string AndMore(int count) => _words["pic.more", Whole(count)];

    public string NowFlag(TideLineRecord record, bool wide)
    {
        var date = Days.WithWeekday(record.Now.InZone(record.Zone).Date);
        return TideFleet.SeaDay(record, record.Now) is >= 0 and var day
            ? wide
                ? _words["pic.now.date.day", date, Whole(day)]
                : _words["pic.now.day", Whole(day)]
            : wide
                ? _words["pic.now.date", date]
                : Now;
    }

    public string MadeAt(TideLineRecord record) => _words["pic.made", Time(record.Zone, record.MadeAt)];

    public string Mark(TideMarkKind kind) => _words["pic.mark." + kind];

    public string MarkOn(DateTimeZone zone, TideMark mark, bool wide) =>
        wide ? $"{Mark(mark.Kind)} {Range(zone, mark.From, mark.To)}" : Mark(mark.Kind);

    public string NightTitle(TideNight night) => _words["pic.night", Date(night.Evening)];

    public string NightDetail(TideNight night) =>
        night.Collected is { } collected
            ? _words["pic.night.collected", Larvae(collected)]
            : _words["pic.night.chance", PerCent(night.Chance)];

    public string CrossingTitle(int count) =>
        count == 1 ? _words["pic.crossing"] : _words["pic.crossings", Whole(count)];

    public string CrossingDetail(TideLineRecord record, TideCrossing crossing) =>
        _words[
            "pic.crossing.into",
            Larvae(crossing.Larvae),
            record.Vessels.FirstOrDefault(one => one.Id == crossing.VesselId)?.Name ?? Sea
        ];

    internal string CrossingGroup(TideLineRecord record, DiveGroup group, bool wide)
    {
        var title = CrossingTitle(group.Dives.Count);
        return wide
            ? $"{title}, {Range(record.Zone, group.First.Crossing.At, group.Last.Crossing.At)}"
            : title;
    }

    internal string CrossingLarvae(DiveGroup group, bool wide) =>
        wide && group.Dives.Count == 1
            ? Larvae(group.First.Crossing.Larvae)
            : Larvae(group.Dives.Sum(dive => dive.Crossing.Larvae.Middle));

    public string Crossed(TideLineRecord record) =>
        _words[
            "pic.crossed",
            Whole(record.Crossings.Sum(crossing => crossing.Larvae.Middle)),
            Range(record.Zone, record.Crossings.Min(one => one.At), record.Crossings.Max(one => one.At))
        ];

    public string End(TideEnd end) => _words[end.Kind == TideEndKind.Home ? "pic.end.home" : "pic.end.ended"];

    public string EndOn(TideLineRecord record, TideEnd end) =>
        _words[
            end.Kind == TideEndKind.Home ? "pic.end.homeOn"
            : record.Crossings.Count > 0 ? "pic.end.emptiedOn"
            : "pic.end.lostOn",
            Day(record.Zone, end.At)
        ];

    public string NoneSeenFrom(DateTimeZone zone, Instant at) => _words["pic.none.from", Day(zone, at)];

    public string NoneSeenSince(DateTimeZone zone, Instant at) => _words["pic.none.since", Day(zone, at)];

    public string Breach(TideBreach breach) =>
        _words[breach.TooSalt ? "pic.breach.salt" : "pic.breach.fresh", Limit(breach.LimitPpt)];

    public string NotSaltierThan(double ppt) => _words["pic.notSaltier", Limit(ppt)];

    public string NotFresherThan(double ppt) => _words["pic.notFresher", Limit(ppt)];

    public string Stave(TideStave stave) => _words["pic.stave." + stave];

    public string Entry(TideEntryMark mark) => _words["pic.entry." + mark];

    public string EntryDetail(TideLineRecord record, TideEntry entry)
    {
        List<string> parts = [Time(record.Zone, entry.At)];
        if (entry.By is { } who)
        {
            parts.Add(_words["pic.entry.by", who]);
        }

        if (entry.Corrected)
        {
            parts.Add(_words["pic.entry.corrected"]);
        }

        if (entry.At > record.Now)
        {
            parts.Add(_words["pic.entry.ahead"]);
        }

        return string.Join(", ", parts);
    }
}
