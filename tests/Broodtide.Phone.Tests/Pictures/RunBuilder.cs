using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Tests.Pictures;

/// <summary>Invented runs for the pictures; every number in them is made up.</summary>
internal static class RunBuilder
{
    public static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
    public static readonly Instant Day0 = Instant.FromUtc(2027, 4, 23, 6, 0);
    public static readonly Guid JarA = Id(1);
    public static readonly Guid JarB = Id(2);

    public static Guid Id(int number) => new(number, 0, 0, new byte[8]);

    public static Instant Day(double days) => Day0 + Duration.FromDays(days);

    public static Interval About(double low, double middle, double high) =>
        Interval.FromPoints(low, middle, high);

    public static TideRow Row(double day, double low, double middle, double high) =>
        new(Day(day), About(low, middle, high));

    public static TideRow Row(Instant at, double low, double middle, double high) =>
        new(at, About(low, middle, high));

    /// <summary>A sawtooth of salinity: half a ppt up a day, fresh water poured at the given days; then a forecast.</summary>
    public static List<TideRow> Saw(
        double from,
        double now,
        double forecastTo,
        double start = 31.6,
        params double[] topUps
    )
    {
        var rows = new List<TideRow>();
        var (at, ppt) = (from, start);
        void Put(double day, double value, double half) =>
            rows.Add(Row(day, value - half, value, value + half));
        Put(at, ppt, 0.3);
        foreach (var topUp in topUps.Where(day => day > from && day < now).Append(now))
        {
            ppt += (topUp - at) * 0.5;
            Put(topUp, ppt, 0.4);
            at = topUp;
            if (topUp < now)
            {
                ppt = start;
                Put(topUp, ppt, 0.3);
            }
        }

        if (forecastTo > now)
        {
            Put(now + 0.2, 32, 0.5);
            Put(now + 6, 32.5, 1.4);
            Put(forecastTo, 32.4, 1.8);
        }

        return rows;
    }

    /// <summary>Numbers that fall by a steady share a day, the interval widening.</summary>
    public static List<TideRow> Falling(
        double from,
        double to,
        double start,
        double perDay = 0.03,
        double spread = 0.08
    )
    {
        var rows = new List<TideRow>();
        for (var day = from; day < to; day += 3)
        {
            rows.Add(At(day));
        }

        rows.Add(At(to));
        return rows;
        TideRow At(double day)
        {
            var gone = day - from;
            var middle = start * Math.Exp(-perDay * gone);
            var wide = spread * Math.Sqrt(1 + gone) / 2;
            return Row(day, Math.Max(0, middle * (1 - wide)), middle, middle * (1 + wide));
        }
    }

    public static List<TideStage> StageNames(int zoeae) =>
        [
            .. Enumerable.Range(1, zoeae).Select(i => new TideStage($"Z{i}", $"{i}", false)),
            new("PL", "PL", true),
        ];

    /// <summary>Stages that follow each other, each some days long, smeared over neighbours.</summary>
    public static List<TideStageRow> StageRows(int zoeae, double from, double to)
    {
        var rows = new List<TideStageRow>();
        var each = (to - from) / (zoeae + 0.6);
        for (var day = from; day <= to; day += 1)
        {
            var weights = Enumerable
                .Range(0, zoeae + 1)
                .Select(i => Math.Exp(-0.5 * Math.Pow((day - from - ((i + 0.4) * each)) / (each * 0.45), 2)))
                .ToList();
            if (day - from > (zoeae + 0.4) * each)
            {
                weights[^1] = 1;
            }

            rows.Add(new(Day(day), [.. weights.Select(weight => weight / weights.Sum())]));
        }

        return rows;
    }

    public static List<TideEntry> Entries(double from, double to, double every = 0.4)
    {
        TideEntryMark[] marks =
        [
            TideEntryMark.Reading,
            TideEntryMark.Fed,
            TideEntryMark.Fed,
            TideEntryMark.TopUp,
            TideEntryMark.Fed,
            TideEntryMark.Dead,
            TideEntryMark.StageSample,
            TideEntryMark.Fed,
            TideEntryMark.Photo,
            TideEntryMark.Note,
            TideEntryMark.Light,
        ];
        var entries = new List<TideEntry>();
        for (var day = from; day < to; day += every)
        {
            entries.Add(new(Day(day), marks[entries.Count % marks.Length], Id(1000 + entries.Count)));
        }

        return entries;
    }

    public static TideMark Mark(TideMarkKind kind, double day, double to = double.NaN) =>
        new(kind, Day(day), Day(double.IsNaN(to) ? day : to), Id(500 + (int)kind));

    public static TideCrossing Crossing(double day, double larvae, Guid? vessel = null, int number = 0) =>
        new(
            Day(day),
            About(larvae * 0.88, larvae, larvae * 1.13),
            vessel ?? JarA,
            Id(700 + number),
            Id(800 + number)
        );

    public static LocalDate Evening(double day) => Day(day).InZone(Zone).Date;
}
