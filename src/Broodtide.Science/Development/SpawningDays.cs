namespace Broodtide.Science.Development;

/// <summary>One candidate for the day of spawning.</summary>
/// <param name="Day">The day.</param>
/// <param name="Weight">Its prior weight.</param>
/// <param name="Plausible">False if it stands only because a look at the empty female may have been wrong.</param>
internal readonly record struct SpawningDay(double Day, double Weight, bool Plausible);

/// <summary>
/// Candidates for the day of spawning: even between the last look at the empty female and the first sight of eggs;
/// where the first is missing, any age up to the longest carried, with more weight on fresh eggs unless the age is
/// said to be unknown. That the eggs had not hatched when seen is not used here but with the other looks.
/// </summary>
internal static class SpawningDays
{
    /// <summary>Oldest eggs considered where nothing bounds their age, days: beyond the 42 of practice.</summary>
    private const int OldestDays = 60;

    private const double NarrowestDays = 0.2;

    internal static SpawningDay[] From(BroodFact[] facts, bool ageUnknown, LookTrust trust)
    {
        var first =
            facts.FirstOrDefault(fact => fact.ShowsEggs)
            ?? facts.First(fact => fact is BroodFact.FirstLarvae);
        var latest = first.LastDay;
        var empty = facts.LastOrDefault(fact => fact is BroodFact.SeenEmpty && fact.Day <= latest);
        return empty is null
            ? [.. AnyAge(latest, ageUnknown, trust)]
            : [.. Between(empty.Day, latest, trust)];
    }

    private static IEnumerable<SpawningDay> Between(double empty, double latest, LookTrust trust)
    {
        var width = Math.Max(latest - empty, NarrowestDays);
        var count = Math.Clamp((int)Math.Ceiling(width / 0.4), 3, OldestDays);
        for (var i = 0; i < count; i++)
        {
            yield return new(latest - (width * (i + 0.5) / count), (1 - trust.EmptyMisread) / count, true);
        }

        const int earlier = 5;
        for (var i = 0; i < earlier && trust.EmptyMisread > 0; i++)
        {
            yield return new(latest - width - (6 * (i + 0.5)), trust.EmptyMisread / earlier, false);
        }
    }

    private static IEnumerable<SpawningDay> AnyAge(double latest, bool ageUnknown, LookTrust trust)
    {
        var early = ageUnknown ? 0 : trust.NoticedEarly;
        for (var i = 0; i < OldestDays; i++)
        {
            var fresh = Math.Exp(-i / trust.NoticedEarlyDays) - Math.Exp(-(i + 1) / trust.NoticedEarlyDays);
            yield return new(latest - i - 0.5, (early * fresh) + ((1 - early) / OldestDays), true);
        }
    }
}
