using Broodtide.Domain.Broods;
using Broodtide.Science.Development.Collecting;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>The gatherings of some broods by night, in hours after the noon before.</summary>
/// <param name="Nights">The numbered gatherings of each night.</param>
/// <param name="Unnumbered">Gatherings without a number.</param>
internal sealed record GatheringNights(IReadOnlyList<IReadOnlyList<GatheredLarvae>> Nights, int Unnumbered)
{
    /// <summary>How many nights say something of the hours: two gatherings or more, and larvae in them.</summary>
    public int Telling =>
        Nights.Count(night => night.Count > 1 && night.Sum(gathered => gathered.Larvae) > 0);

    public static GatheringNights Of(IEnumerable<Brood> broods, Instant now, DateTimeZone zone)
    {
        var nights = new List<IReadOnlyList<GatheredLarvae>>();
        var unnumbered = 0;
        foreach (var brood in broods)
        {
            var done = brood.Gatherings.Where(gathering => gathering.When.Latest <= now).ToArray();
            unnumbered += done.Count(gathering => gathering.Made.Number is null);
            nights.AddRange(
                done.Select(gathering => DayAxis.EveningOf(gathering.When.Latest, zone))
                    .Distinct()
                    .Select(evening => Tonight(done, DayAxis.Noon(evening, zone)))
                    .Where(night => night.Count > 0)
            );
        }

        return new(nights, unnumbered);
    }

    /// <summary>
    /// The numbered gatherings of the night after a noon. Each reaches back to the one before it, numbered or not, or
    /// to the noon.
    /// </summary>
    public static IReadOnlyList<GatheredLarvae> Tonight(IEnumerable<Gathering> gatherings, Instant noon)
    {
        var night = new List<GatheredLarvae>();
        var before = 0.0;
        foreach (
            var gathering in gatherings
                .Where(gathering =>
                    gathering.When.Latest >= noon && gathering.When.Latest < noon + Duration.FromDays(1)
                )
                .OrderBy(gathering => gathering.When.Latest)
                .ThenBy(gathering => gathering.Entry.Value)
        )
        {
            var at = (gathering.When.Latest - noon).TotalHours;
            if (gathering.Made.Number is { } number)
            {
                night.Add(new(before, at, Math.Max(0, number)));
            }

            before = at;
        }

        return night;
    }
}
