using System.Diagnostics;
using System.Globalization;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Workbench;
using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>
/// What one more reading costs a house of ten years, part by part, once the code is warm: the median of many. A profiler finds here what a
/// phone waits for.
/// </summary>
internal static class OneMoreReading
{
    public static void Run(int count, int rounds)
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        var zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
        var entries = TenYears.Entries(count, now);
        var account = Account.Of(entries.Select(e => Entry.ReadTrusted(e.Bytes, e.Digest).Value));
        var outlook = Outlook.Of(account, now, zone);
        Told(outlook, (_, _) => { });
        var jar = outlook.House.Vessels.Last(vessel => vessel.Standing is not null).Id;
        var took = new Dictionary<string, List<double>>();
        for (var round = 0; round < rounds; round++)
        {
            now += Duration.FromMinutes(1);
            var at = now;
            var reading = new Draft(
                new(Guid.CreateVersion7()),
                new("Ada"),
                at,
                zone.Id,
                Happened.At(at),
                new ReadingTaken(TypedNumber.Of(24 + (0.01 * (round % 20)), "Cel"), jar)
            ).Seal(new(Guid.CreateVersion7()), 1, null, new byte[EntryBytes.SaltLength]);
            Timed("account", () => account.Add(reading));
            outlook = outlook.Renewed(at);
            Told(outlook, Timed);
        }

        foreach (var (part, times) in took)
        {
            times.Sort();
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{times[times.Count / 2], 9:F2} ms, worst {times[^1], 8:F2}  {part}"
                )
            );
        }

        void Timed(string part, Action work)
        {
            var began = Stopwatch.GetTimestamp();
            work();
            if (!took.TryGetValue(part, out var times))
            {
                took[part] = times = [];
            }

            times.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }
    }

    private static void Told(Outlook outlook, Action<string, Action> timed)
    {
        timed("water that stands", () => _ = outlook.StandingLedgers);
        timed("broods under way", () => _ = outlook.BroodsUnderWay);
        timed("cultures", () => _ = outlook.Cultures);
        timed("forecasts", () => _ = outlook.Forecasts);
        timed("plans", () => _ = outlook.Plans);
        timed("due", () => _ = outlook.Due);
        timed("all ledgers", () => _ = outlook.Ledgers);
        timed(
            "populations",
            () => _ = outlook.BroodsUnderWay.Select(b => outlook.PopulationOf(b.Id)).Count()
        );
        timed("tide lines", () => Lines(outlook));
        timed(
            "estimates",
            () =>
                _ = outlook
                    .BroodsUnderWay.Select(b => outlook.PopulationOf(b.Id))
                    .OfType<Workbench.Population.LarvalPopulation>()
                    .Distinct()
                    .Select(outlook.EstimateOf)
                    .Count()
        );
        timed("tide lines, alive in them", () => Lines(outlook));
        timed("safety", () => _ = outlook.WatersTold.Select(outlook.SafetyOf).Count());
    }

    private static void Lines(Outlook outlook)
    {
        foreach (var brood in outlook.BroodsUnderWay)
        {
            _ = TideLineOf.Brood(outlook, brood.Id);
        }
    }
}
