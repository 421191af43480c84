using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;

namespace Broodtide.Scoring;

/// <summary>
/// Reads events.csv of a larval run: t_days,kind,cohort,x,fraction,n,stages, blank where not known. One vessel.
/// x is the number seen, counted or read; of aliquots, x and fraction stand for all n together, or, where
/// <see cref="FractionReading"/> finds that they were meant so, fraction for each of them; stages are counts by stage
/// separated by spaces, the settled ones last.
/// </summary>
public static class AliveRun
{
    private const string Kinds = "crossing, aliquot, full, beam, glance, dead, removed, temperature, stage";

    // What is supposed of a keeper's looks and numbers: assumptions, wide on purpose.
    private const double NumberCv = 0.4;
    private const double NumberUnknown = 150;
    private const double NumberUnknownCv = 1;
    private const double FullCv = 0.05;
    private const double BeamScatter = 8;
    private const double GlanceScatter = 3;

    private enum Look
    {
        Beam,
        Glance,
    }

    /// <exception cref="FileTroubleException">The file is missing or a line cannot be read.</exception>
    public static LarvalRun Read(string file, bool fractionOfEach = false)
    {
        var table = Table.Read(file, "t_days", "kind", "cohort", "x", "fraction", "n", "stages");
        List<LarvalEvent> events = [];
        List<string> cohorts = [];
        List<(double Day, double Celsius)> temperatures = [];
        var stages = 0;
        foreach (var row in table.Rows.Where(row => Kind(table, row) == "crossing"))
        {
            if (!cohorts.Contains(table.Text(row, 2), StringComparer.Ordinal))
            {
                cohorts.Add(table.Text(row, 2));
            }
        }

        if (cohorts.Count == 0)
        {
            throw new FileTroubleException($"{file}: no line is a crossing; needed is at least one.");
        }

        var classes = table
            .Rows.Select(row => Kind(table, row))
            .Where(kind => kind is "beam" or "glance")
            .Distinct(StringComparer.Ordinal)
            .Select(kind => kind == "beam" ? Look.Beam : Look.Glance)
            .Order()
            .ToList();
        var tag = 0;
        foreach (var row in table.Rows)
        {
            var day =
                Table.Number(table.Text(row, 0)) is { } number && Math.Abs(number) <= 50_000
                    ? number
                    : throw table.Trouble(
                        row,
                        $"t_days is '{table.Text(row, 0)}'; allowed is a number of days."
                    );
            if (Kind(table, row) == "temperature")
            {
                temperatures.Add((day, Number(table, row, 3, "x", -5, 50)));
                continue;
            }

            if (Kind(table, row) == "stage")
            {
                stages = Math.Max(stages, Stages(table, row).Length);
            }

            events.Add(Event(table, row, day, tag++, cohorts, classes, fractionOfEach));
        }

        var last = table.Rows.Max(row => Table.Number(table.Text(row, 0)) ?? double.MinValue);
        return new()
        {
            Cells = [.. cohorts.Select((_, cohort) => new LarvalCell(0, cohort))],
            Courses = [Course(temperatures, events.Min(e => e.Day), last)],
            Stages = StagesOf(stages),
            Priors = new()
            {
                ArrivalErrorFactor = new(1, 0.5),
                Detection =
                [
                    .. classes.Select(look => look == Look.Beam ? new ShareBelief(0.35, 0.9) : new(0.12, 1)),
                ],
            },
            Events = Joined(events),
            Now = last,
        };
    }

    // Nine zoeae where nothing was staged; the attraction to light fades from the seventh of nine on.
    private static LarvalStages StagesOf(int columns)
    {
        var larval = columns < 2 ? 9 : columns - 1;
        return LarvalStages.Even(larval, (int)Math.Round(6.0 / 9 * larval));
    }

    private static LarvalEvent Event(
        Table table,
        (int Line, string[] Fields) row,
        double day,
        int tag,
        List<string> cohorts,
        List<Look> classes,
        bool fractionOfEach
    )
    {
        var cohort = cohorts.IndexOf(table.Text(row, 2));
        var cells = cohort >= 0 ? 1UL << cohort : (1UL << cohorts.Count) - 1;
        return Kind(table, row) switch
        {
            "crossing" => Crossing(table, row, day, tag, cohort),
            "aliquot" => new Counted(day, tag, cells, Aliquots(table, row, fractionOfEach)),
            "full" => new Counted(day, tag, cells, new FullEvidence(Whole(table, row), FullCv)),
            "beam" => new Counted(
                day,
                tag,
                cells,
                new LookEvidence(Whole(table, row), classes.IndexOf(Look.Beam), BeamScatter, true)
            ),
            "glance" => new Counted(
                day,
                tag,
                cells,
                new LookEvidence(Whole(table, row), classes.IndexOf(Look.Glance), GlanceScatter, true)
            ),
            "dead" => new DeadFound(day, tag, Whole(table, row)),
            "removed" => new Removed(day, tag, cells, Whole(table, row)),
            "stage" => new Staged(day, tag, cells, Stages(table, row)),
            var kind => throw table.Trouble(row, $"kind is '{kind}'; allowed is one of {Kinds}."),
        };
    }

    private static AliquotSumEvidence Aliquots(
        Table table,
        (int Line, string[] Fields) row,
        bool fractionOfEach
    )
    {
        var aliquots = Math.Max(1, (int)(Table.Number(table.Text(row, 5)) ?? 1));
        var fraction = Number(table, row, 4, "fraction", 1e-6, 1);
        return new(Whole(table, row), fractionOfEach ? Math.Min(1, fraction * aliquots) : fraction, aliquots);
    }

    // Aliquots of one time, each written by itself, are one count of several: how they differ tells of clumping.
    private static List<LarvalEvent> Joined(List<LarvalEvent> events) =>
        [
            .. events.Where(happened => Single(happened) is null),
            .. events
                .OfType<Counted>()
                .Where(counted => Single(counted) is not null)
                .GroupBy(counted => (counted.Day, counted.Cells))
                .Select(group => new Counted(
                    group.Key.Day,
                    group.Min(counted => counted.Tag),
                    group.Key.Cells,
                    new AliquotEvidence([.. group.Select(counted => Single(counted)!)])
                )),
        ];

    private static SampledShare? Single(LarvalEvent happened) =>
        happened is Counted { Evidence: AliquotSumEvidence { Aliquots: 1 } one }
            ? new(one.Seen, one.Share)
            : null;

    private static Arrived Crossing(
        Table table,
        (int Line, string[] Fields) row,
        double day,
        int tag,
        int cohort
    )
    {
        if (Table.Number(table.Text(row, 3)) is null)
        {
            return new(day, tag, cohort, NumberUnknown, NumberUnknownCv);
        }

        var number = Number(table, row, 3, "x", 0, 1e6);
        return Table.Number(table.Text(row, 4)) is { } fraction and > 0 and < 1
            ? new(day, tag, cohort, number / fraction, Math.Sqrt((1 / (number + 1)) + 0.2))
            : new(day, tag, cohort, number, NumberCv);
    }

    private static VesselCourse Course(List<(double Day, double Celsius)> read, double first, double last)
    {
        const double reach = 400;
        var conditions = new LarvalConditions();
        var begin = first - 10;
        if (read.Count == 0)
        {
            return new([begin, last + reach], [0, last + reach - begin], [0, last + reach - begin]);
        }

        read.Sort((a, b) => a.Day.CompareTo(b.Day));
        var recent = read.Where(reading => reading.Day >= read[^1].Day - 10)
            .Average(reading => reading.Celsius);
        List<double> days = [begin];
        List<double> development = [0];
        List<double> hazard = [0];
        for (var i = 0; i <= read.Count; i++)
        {
            var until = i < read.Count ? read[i].Day : last + reach;
            // The last reading holds for a day; what comes is like the days before it.
            if (i == read.Count && read[^1].Day + 1 < until)
            {
                Go(read[^1].Day + 1, read[^1].Celsius);
                Go(until, recent);
            }
            else
            {
                Go(until, read[Math.Max(0, i - 1)].Celsius);
            }
        }

        return new(days, development, hazard);

        void Go(double until, double celsius)
        {
            var length = until - days[^1];
            if (length <= 1e-9)
            {
                return;
            }

            var temperature = Temperature.FromCelsius(celsius);
            days.Add(until);
            development.Add(development[^1] + (length * conditions.DevelopmentPerDay(temperature)));
            hazard.Add(hazard[^1] + (length * conditions.HazardFactor(temperature)));
        }
    }

    private static string Kind(Table table, (int Line, string[] Fields) row) =>
        table.Text(row, 1).ToLowerInvariant();

    private static int Whole(Table table, (int Line, string[] Fields) row) =>
        (int)Math.Round(Number(table, row, 3, "x", 0, 1e6));

    private static double Number(
        Table table,
        (int Line, string[] Fields) row,
        int column,
        string name,
        double lowest,
        double highest
    ) =>
        Table.Number(table.Text(row, column)) is { } number && number >= lowest && number <= highest
            ? number
            : throw table.Trouble(
                row,
                $"{name} is '{table.Text(row, column)}'; allowed is a number from {lowest} to {highest}."
            );

    private static int[] Stages(Table table, (int Line, string[] Fields) row) =>
        [
            .. table
                .Text(row, 6)
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(part =>
                    Table.Number(part) is { } number and >= 0 and <= 1e6
                        ? (int)number
                        : throw table.Trouble(row, $"stages holds '{part}'; allowed are counts.")
                ),
        ];
}
