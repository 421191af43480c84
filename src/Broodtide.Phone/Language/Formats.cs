using System.Globalization;
using Broodtide.Phone.Browser;
using Broodtide.Units;
using NodaTime;
using Duration = NodaTime.Duration;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Language;

/// <summary>Numbers, quantities and times as this keeper reads them.</summary>
internal sealed class Formats(Preferences preferences, Words words, PhoneClock clock)
{
    /// <summary>Between a number and its unit, and between thousands: thin, and never at the end of a line.</summary>
    public const char ThinSpace = '\u202f';

    private const string Minus = "−";

    /// <summary>The units that this keeper prefers.</summary>
    public UnitSystem Units => preferences.Units;

    /// <summary>
    /// Decimals that an interval earns: its width parted in about six steps, at most three decimals.
    /// </summary>
    public static int DecimalsFor(Interval interval) =>
        interval.Width > 0 ? Math.Clamp((int)Math.Ceiling(-Math.Log10(interval.Width / 6)), 0, 3) : 1;

    public string Number(double value, int decimals)
    {
        var text = Math.Abs(value).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture));
        var point = text.IndexOf('.');
        var whole = point < 0 ? text : text[..point];
        var part = point < 0 ? "" : text[(point + 1)..];
        // Four digits are still read at a glance; five are not.
        for (var at = whole.Length - 3; at > 0 && text.Length > 4 && whole.Length > 4; at -= 3)
        {
            whole = whole.Insert(at, ThinSpace.ToString());
        }

        var sign = value < 0 && text.AsSpan().ContainsAnyExcept('0', '.') ? Minus : "";
        var mark = preferences.DecimalSign == DecimalSign.Comma ? "," : ".";
        return part.Length > 0 ? sign + whole + mark + part : sign + whole;
    }

    /// <summary>Without zeros at the end: for amounts to pour and values as typed.</summary>
    public string Plain(double value, int atMostDecimals)
    {
        var rounded = Math.Round(value, atMostDecimals);
        var decimals = 0;
        while (decimals < atMostDecimals && Math.Round(rounded, decimals) != rounded)
        {
            decimals++;
        }

        return Number(rounded, decimals);
    }

    /// <summary>Three figures: for numbers of a species, which may be hundreds or hundredths.</summary>
    public string ThreeFigures(double value) =>
        value == 0 ? "0" : Plain(value, Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 6));

    /// <summary>In a sentence: 118 (79–161).</summary>
    public string Sentence(Interval interval)
    {
        var decimals = DecimalsFor(interval);
        return interval.Width > 0
            ? $"{Number(interval.Middle, decimals)} ({Number(interval.Low, decimals)}–{Number(interval.High, decimals)})"
            : Number(interval.Middle, decimals);
    }

    /// <summary>To be heard: about 118; nine in ten sure it is between 79 and 161.</summary>
    public string Spoken(Interval interval, bool rough = false)
    {
        var decimals = DecimalsFor(interval);
        var low = Number(interval.Low, decimals);
        var high = Number(interval.High, decimals);
        return rough ? words["interval.rough.spoken", low, high]
            : interval.Width > 0 ? words["interval.spoken", Number(interval.Middle, decimals), low, high]
            : Number(interval.Middle, decimals);
    }

    public string Amount(Volume volume) =>
        preferences.Units == UnitSystem.Us
            ? volume.UsGallons >= 1
                ? WithUnit(Plain(volume.UsGallons, 2), "gal")
                : WithUnit(Plain(volume.UsQuarts, 2), "qt")
            : volume.Litres >= 1
                ? WithUnit(Plain(volume.Litres, 2), "L")
                : WithUnit(Plain(volume.Millilitres, 0), "mL");

    public string Amount(Mass mass) =>
        mass.Grams >= 1000 ? WithUnit(Plain(mass.Kilograms, 2), "kg")
        : mass.Grams >= 10 ? WithUnit(Plain(mass.Grams, 0), "g")
        : mass.Grams >= 1 ? WithUnit(Plain(mass.Grams, 1), "g")
        : WithUnit(Plain(mass.Milligrams, 0), "mg");

    public string Reading(Temperature temperature, int decimals = 1) =>
        preferences.Units == UnitSystem.Us
            ? WithUnit(Plain(temperature.Fahrenheit, decimals), "°F")
            : WithUnit(Plain(temperature.Celsius, decimals), "°C");

    public string Reading(Salinity salinity, int decimals = 1) =>
        WithUnit(Number(salinity.Practical, decimals), words["unit.ppt"]);

    /// <summary>Whole per cent; small ones with a decimal; never 0 or 100 for what is only nearly so.</summary>
    public string Share(Probability share) =>
        share.Value is 0 or 1 ? WithUnit(Number(share.Percent, 0), "%")
        : share.Percent < 0.1 ? words["share.under", WithUnit(Number(0.1, 1), "%")]
        : share.Percent > 99.9 ? words["share.over", WithUnit(Number(99.9, 1), "%")]
        : share.Percent is < 1 or > 99 ? WithUnit(Number(share.Percent, 1), "%")
        : WithUnit(Number(share.Percent, 0), "%");

    /// <summary>First, second, up to twelfth; then 13th, 21st.</summary>
    public string Ordinal(int place) =>
        words.Has("count.ordinal." + place) ? words["count.ordinal." + place]
        : place % 100 is 11 or 12 or 13 ? words["count.ordinal", place]
        : words[
            (place % 10) switch
            {
                1 => "count.ordinal.st",
                2 => "count.ordinal.nd",
                3 => "count.ordinal.rd",
                _ => "count.ordinal",
            },
            place
        ];

    /// <summary>Thu 20 May; with the year where it is not this one.</summary>
    public string Day(LocalDate date)
    {
        var day = words["day." + (int)date.DayOfWeek];
        var month = words["month." + date.Month];
        return date.Year == clock.Here.Year
            ? words["date.short", day, date.Day, month]
            : words["date.long", day, date.Day, month, date.Year];
    }

    /// <summary>Thu 20: the month goes without saying.</summary>
    public string ShortDay(LocalDate date) =>
        words["date.weekday", words["day." + (int)date.DayOfWeek], date.Day];

    /// <summary>18:40, or 6:40 pm.</summary>
    public string Time(LocalTime time) =>
        preferences.Clock == ClockFace.Hours24
            ? $"{time.Hour:D2}:{time.Minute:D2}"
            : $"{time.ClockHourOfHalfDay}:{time.Minute:D2}{ThinSpace}{(time.Hour < 12 ? words["time.am"] : words["time.pm"])}";

    /// <summary>Thu 20 May, 18:40, in the phone's zone.</summary>
    public string Moment(Instant instant)
    {
        var here = instant.InZone(clock.Zone).LocalDateTime;
        return $"{Day(here.Date)}, {Time(here.TimeOfDay)}";
    }

    /// <summary>An instant that is foretold: about an hour of today or tomorrow, a part of a later day.</summary>
    public string About(Instant instant)
    {
        var here = (instant + NodaTime.Duration.FromMinutes(30)).InZone(clock.Zone).LocalDateTime;
        var days = Period.DaysBetween(clock.Here.Date, here.Date);
        var hour = Time(new LocalTime(here.Hour, 0));
        return days switch
        {
            0 => words["about.today", hour],
            1 => words["about.tomorrow", hour],
            _ => words[
                here.Hour switch
                {
                    < 5 => "about.night",
                    < 11 => "about.morning",
                    < 14 => "about.midday",
                    < 18 => "about.afternoon",
                    _ => "about.evening",
                },
                Day(here.Date)
            ],
        };
    }

    /// <summary>Minutes and seconds left, 1:42; from an hour on 1:02:30. Under a second counts as one.</summary>
    public static string Countdown(Duration left)
    {
        var seconds = Math.Max(0, (long)Math.Ceiling(left.TotalSeconds));
        var (minutes, second) = Math.DivRem(seconds, 60);
        var (hour, minute) = Math.DivRem(minutes, 60);
        return hour > 0 ? $"{hour}:{minute:D2}:{second:D2}" : $"{minute}:{second:D2}";
    }

    private static string WithUnit(string number, string unit) => number + ThinSpace + unit;
}
