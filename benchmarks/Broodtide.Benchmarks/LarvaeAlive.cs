using System.Globalization;
using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Benchmarks;

/// <summary>How long the estimate of larvae alive takes: processor time of one answer.</summary>
internal static class LarvaeAlive
{
    private const int Cohorts = 6;
    private const double Until = 45;

    /// <summary>One day is asked.</summary>
    public static LarvalQuestion Today { get; } = new() { Days = [Until] };

    /// <summary>60 days are asked, each cohort told apart on each.</summary>
    public static LarvalQuestion Line { get; } =
        new()
        {
            Days = [.. Enumerable.Range(0, 60).Select(day => (double)day)],
            Sets = [.. Enumerable.Range(0, Cohorts).Select(cohort => 1UL << cohort)],
        };

    public static void Run(int times)
    {
        Console.WriteLine(Machine.Describe());
        Console.WriteLine($"6 cohorts in one vessel, 45 days; processor time of one answer, {times} times");
        Print("40 entries, one day", Invent(1), Today, times);
        Print("40 entries, 60 days with each cohort told apart", Invent(1), Line, times);
        foreach (var (entries, part) in new[] { (20, 0.5), (80, 2), (160, 4) })
        {
            Print($"{entries} entries, one day", Invent(part), Today, times);
        }
    }

    private static void Print(string title, LarvalRun run, LarvalQuestion question, int times)
    {
        for (var i = 0; i < 40; i++)
        {
            LarvalEstimator.Of(run, question);
        }

        var milliseconds = new List<double>(times);
        for (var i = 0; i < times; i++)
        {
            var before = Environment.CpuUsage.TotalTime;
            LarvalEstimator.Of(run, question);
            milliseconds.Add((Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
        }

        milliseconds.Sort();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{title} ({run.Events.Count} events, effective size {LarvalEstimator.Of(run, question).EffectiveSize:F0}): median {milliseconds[times / 2]:F1} ms, best {milliseconds[0]:F1}, nine in ten below {milliseconds[times * 9 / 10]:F1}"
            )
        );
    }

    /// <summary>
    /// Of 40: six crossings, eight counts of four aliquots, six beams, six glances, seven stage samples, three times
    /// dead, two removals, a full count and settled ones seen; numbers fall from 1200 as larvae do.
    /// </summary>
    /// <param name="part">How many times as many looks; the crossings stay.</param>
    /// <param name="cohorts">In how many crossings the 1200 came, within the first eleven days; 1 to 62.</param>
    public static LarvalRun Invent(double part, int cohorts = Cohorts)
    {
        var all = (1UL << cohorts) - 1;
        List<LarvalEvent> events = [];
        for (var cohort = 0; cohort < cohorts; cohort++)
        {
            events.Add(
                new Arrived(1.8 * Cohorts * cohort / cohorts, events.Count, cohort, 1200.0 / cohorts, 0.6)
            );
        }

        Spread(8, (day, tag) => new Counted(day, tag, all, new AliquotEvidence(Aliquots(day))));
        Spread(
            6,
            (day, tag) => new Counted(day, tag, all, new LookEvidence((int)(0.3 * Alive(day)), 0, 8, true))
        );
        Spread(
            6,
            (day, tag) => new Counted(day, tag, all, new LookEvidence((int)(0.1 * Alive(day)), 1, 3, true))
        );
        Spread(7, (day, tag) => new Staged(day, tag, all, Stages(day)));
        Spread(3, (day, tag) => new DeadFound(day, tag, 15));
        Spread(2, (day, tag) => new Removed(day, tag, all, 8));
        Spread(1, (day, tag) => new Counted(day, tag, all, new FullEvidence((int)Alive(day), 0.05)));
        Spread(1, (_, tag) => new SettledSeen(Until, tag, all, 3));
        return new()
        {
            Cells = [.. Enumerable.Range(0, cohorts).Select(cohort => new LarvalCell(0, cohort))],
            Courses = [VesselCourse.Plain],
            Stages = LarvalStages.Even(9, 6),
            Priors = new() { Detection = [new(0.35, 0.9), new(0.12, 1)] },
            Events = events,
            Now = Until,
        };

        void Spread(int count, Func<double, int, LarvalEvent> look)
        {
            var number = (int)Math.Max(1, Math.Round(count * part));
            for (var i = 0; i < number; i++)
            {
                events.Add(look(Until * (i + 0.7) / number, events.Count));
            }
        }
    }

    private static double Alive(double day) =>
        Math.Min(1200, 200 * (1 + (day / 1.8))) * Math.Exp(-0.035 * day);

    private static SampledShare[] Aliquots(double day) =>
        [
            .. Enumerable
                .Range(0, 4)
                .Select(i => new SampledShare((int)(0.0075 * Alive(day)) + (i % 3), 0.0075)),
        ];

    private static int[] Stages(double day)
    {
        var tallies = new int[10];
        for (var i = 0; i < 15; i++)
        {
            tallies[Math.Clamp((int)((day - (0.6 * i)) / 4.3), 0, 9)]++;
        }

        return tallies;
    }
}
