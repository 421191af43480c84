using System.Diagnostics;
using System.Globalization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Workbench;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>
/// Where the time goes between the entries of ten years and what is shown of them, part by part; the first outlook, the one that rests on what it kept, and
/// the one after one more reading.
/// </summary>
internal static class OutlookStages
{
    public static void Run(int count)
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        var zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
        var entries = TenYears.Entries(count, now);
        for (var round = 0; round < 3; round++)
        {
            Console.WriteLine($"round {round + 1}");
            var read = Timed(
                "bytes to entries",
                () => entries.Select(e => Entry.ReadTrusted(e.Bytes, e.Digest).Value).ToList()
            );
            var account = Timed("entries to account", () => Account.Of(read));
            Timed("index by subject", () => account.Subjects(SubjectKind.Vessel).ToList());
            var outlook = Tell(Outlook.Of(account, now, zone));
            Console.WriteLine("again, resting on what was kept");
            var kept = outlook.TakeCheckpoint() is { } checkpoint ? [checkpoint] : Array.Empty<Checkpoint>();
            Tell(Timed("outlook", () => Outlook.Of(Account.Of(read), now, zone, kept: kept)));
            var jar = new House(account).Vessels.Last(vessel => vessel.Standing is not null);
            var last = read[^1];
            var reading = new Draft(
                new(Guid.CreateVersion7()),
                new("Ada"),
                now,
                zone.Id,
                Happened.At(now),
                new ReadingTaken(TypedNumber.Of(24, "Cel"), jar.Id)
            ).Seal(new(Guid.CreateVersion7()), 1, null, new byte[EntryBytes.SaltLength]);
            Timed("one more reading: account", () => account.Add(reading));
            Tell(Timed("outlook renewed", () => outlook.Renewed(now + Duration.FromMinutes(1))));
        }
    }

    private static Outlook Tell(Outlook outlook)
    {
        Timed(
            "  every vessel, animal, brood, cohort",
            () =>
                outlook.House.Vessels.Count()
                + outlook.House.Animals.Count()
                + outlook.House.Broods.Count()
                + outlook.House.Cohorts.Count()
        );
        Timed("  broods under way", () => outlook.BroodsUnderWay.Count);
        Timed("  ledgers of the water that stands", () => outlook.StandingLedgers.Count);
        Timed("  forecasts", () => outlook.Forecasts.Count);
        Timed("  plans", () => outlook.Plans.Count);
        Timed("  due", () => outlook.Due.Items.Count);
        var steps = 0;
        var longest = TimeSpan.Zero;
        Timed(
            "  what is left of the steps",
            () =>
            {
                foreach (var step in outlook.Steps())
                {
                    var began = Stopwatch.GetTimestamp();
                    step();
                    steps++;
                    var took = Stopwatch.GetElapsedTime(began);
                    longest = took > longest ? took : longest;
                }

                return steps;
            }
        );
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"    longest of those steps {longest.TotalMilliseconds:F1} ms"
            )
        );
        return outlook;
    }

    private static T Timed<T>(string what, Func<T> work)
    {
        var began = Stopwatch.GetTimestamp();
        var result = work();
        var took = Stopwatch.GetElapsedTime(began);
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{took.TotalMilliseconds, 10:F1} ms  {what} {result as int?}"
            )
        );
        return result;
    }
}
