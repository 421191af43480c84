using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Which stages larvae of a vessel may be in, from their age and what was last seen under the microscope: in no time,
/// for water that is minded before anything is estimated. Larvae are taken to pass the stages evenly, the quickest in
/// the fewest and the slowest in the most days of the profile.
/// </summary>
/// <param name="Youngest">Order of the youngest stage, from 1.</param>
/// <param name="Oldest">Order of the oldest.</param>
public sealed record StagesLikely(int Youngest, int Oldest)
{
    // A sample older than this tells less than the age does. Practice.
    private static readonly Duration SampleHolds = Duration.FromDays(6);

    /// <summary>The stages of the larvae in a vessel; none where none live there.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="profile">The species.</param>
    /// <param name="now">The instant to tell it for.</param>
    public static StagesLikely? In(House house, Vessel vessel, SpeciesProfile profile, Instant now)
    {
        var crossed = house
            .Cohorts.Where(cohort => UnderWay.VesselsOf(house, cohort, now).Contains(vessel.Id))
            .Select(cohort => cohort.Crossed)
            .OfType<Happened>()
            .Where(when => when.Earliest <= now)
            .ToList();
        if (crossed.Count == 0)
        {
            return null;
        }

        var byAge = new StagesLikely(
            OrderAt(profile, (now - crossed.Max(when => when.Latest)).TotalDays, profile.LarvalDaysHigh),
            OrderAt(profile, (now - crossed.Min(when => when.Earliest)).TotalDays, profile.LarvalDaysLow)
        );
        return Seen(house, vessel, profile, now) ?? byAge;
    }

    /// <summary>The day from crossing at which larvae come into a stage.</summary>
    /// <param name="profile">The species.</param>
    /// <param name="order">Order of the stage, from 1.</param>
    /// <param name="days">Days from crossing to settlement.</param>
    public static double DayOf(SpeciesProfile profile, int order, double days) =>
        (order - 1) * days / Zoeae(profile);

    private static int Zoeae(SpeciesProfile profile) => Math.Max(1, profile.Stages.Length - 1);

    private static int OrderAt(SpeciesProfile profile, double age, double days) =>
        1
        + (int)
            Math.Clamp(Math.Floor(Math.Max(0, age) / Math.Max(1, days) * Zoeae(profile)), 0, Zoeae(profile));

    private static StagesLikely? Seen(House house, Vessel vessel, SpeciesProfile profile, Instant now)
    {
        var last = house
            .Told<StageSampleTaken>(Subject.Of(vessel.Id))
            .LastOrDefault(told => told.Happened.Latest <= now && now - told.Happened.Latest <= SampleHolds);
        if (last?.Fact is not StageSampleTaken sample)
        {
            return null;
        }

        var orders = sample
            .Stages.Where(tally => tally.Number > 0)
            .Select(tally =>
                profile
                    .Stages.FirstOrDefault(stage =>
                        string.Equals(stage.Code, tally.Stage, StringComparison.OrdinalIgnoreCase)
                    )
                    ?.Order
            )
            .OfType<int>()
            .ToList();
        if (orders.Count == 0)
        {
            return null;
        }

        // They grew since: the quickest by the fewest days.
        var grown =
            (now - last.Happened.Earliest).TotalDays * Zoeae(profile) / Math.Max(1, profile.LarvalDaysLow);
        return new(orders.Min(), Math.Min(Zoeae(profile) + 1, orders.Max() + (int)Math.Floor(grown)));
    }
}
