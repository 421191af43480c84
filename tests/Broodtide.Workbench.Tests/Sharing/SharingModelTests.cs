using System.Collections.Concurrent;
using System.Globalization;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>
/// Random courses of things on the real code. BROODTIDE_SCHEDULES says how many, BROODTIDE_SEED where they begin; a
/// failure names its seed.
/// </summary>
public sealed class SharingModelTests
{
    private const int UsualSchedules = 300;

    private static int Schedules => Told("BROODTIDE_SCHEDULES") ?? UsualSchedules;

    private static int Seed => Told("BROODTIDE_SEED") ?? 1;

    [Fact]
    public async Task Whatever_happens_on_the_way_all_stores_end_equal_and_nothing_is_lost_or_doubled()
    {
        var (wrong, course) = await PlayAsync(Seed, Schedules, Planted.None);
        TestContext.Current.SendDiagnosticMessage("{0} schedules: {1}", Schedules, course);
        // Schedules in which nothing happens would prove nothing.
        Assert.True(
            course is { Restores: > 0, LetIn: > 0, Discarded: > 0, Brought: > 0, Gone: > 0 },
            $"{course}"
        );
        Assert.True(wrong.Count == 0, $"{wrong.Count} of {Schedules}:\n{string.Join('\n', wrong.Take(10))}");
    }

    [Theory]
    [InlineData((int)Planted.StruckOffUnanswered, "was struck off, but the house does not hold it")]
    [InlineData((int)Planted.SameReplicaAfterRestore, "sync-replica-of-the-house")]
    public async Task A_planted_fault_is_found_out(int planted, string said)
    {
        var (wrong, _) = await PlayAsync(1, UsualSchedules, (Planted)planted);
        TestContext.Current.SendDiagnosticMessage(
            "{0}: {1} of {2}, {3}",
            (Planted)planted,
            wrong.Count,
            UsualSchedules,
            wrong[0]
        );
        Assert.NotEmpty(wrong);
        Assert.Contains(wrong, text => text.Contains(said, StringComparison.Ordinal));
    }

    private static async Task<(IReadOnlyList<string> Wrong, Course Course)> PlayAsync(
        int seed,
        int count,
        Planted planted
    )
    {
        var wrong = new ConcurrentBag<string>();
        var courses = new ConcurrentBag<Course>();
        await Parallel.ForEachAsync(
            Enumerable.Range(seed, count),
            TestContext.Current.CancellationToken,
            async (one, _) =>
            {
                var (what, course) = await Schedule.PlayAsync(one, planted);
                courses.Add(course);
                if (what is not null)
                {
                    wrong.Add(what);
                }
            }
        );
        return ([.. wrong.Order(StringComparer.Ordinal)], courses.Aggregate((left, right) => left + right));
    }

    private static int? Told(string name) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
