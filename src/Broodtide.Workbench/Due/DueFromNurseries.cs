using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>What juveniles in fresh water ask for: a count now and then, and whether the lid is on after they came.</summary>
internal static class DueFromNurseries
{
    // How often nurseries are counted; and how long juveniles are followed. Practice, no source.
    private const int CountEveryDays = 14;
    private static readonly Duration Followed = Duration.FromDays(120);

    public static IEnumerable<PlannedAction> Of(House house, Instant now, DateTimeZone zone)
    {
        foreach (var vessel in house.Vessels)
        {
            var about = Subject.Of(vessel.Id);
            var home = house
                .Told<JuvenilesReturned>(about)
                .Where(it => ((JuvenilesReturned)it.Fact).To == vessel.Id && it.Happened.Latest <= now)
                .ToList();
            if (home.Count == 0 || now - home[^1].Happened.Latest > Followed)
            {
                continue;
            }

            var emptied = house.Told<VesselEmptied>(about).Where(it => it.Happened.Latest <= now);
            if (IsEmpty(vessel, emptied, home))
            {
                continue;
            }

            var counted = house.Told<JuvenilesCounted>(about).Where(it => it.Happened.Latest <= now);
            yield return Lid(vessel, home[0]);
            yield return Count(vessel, counted, home, zone);
        }
    }

    private static bool IsEmpty(Vessel vessel, IEnumerable<Occurrence> emptied, List<Occurrence> home) =>
        emptied.Any(it => it.Happened.Earliest > home[^1].Happened.Latest)
        || (vessel.Fills.Count > 0 && vessel.Standing is null);

    private static PlannedAction Lid(Vessel vessel, Occurrence came) =>
        Make(ActionCodes.CheckNurseryLid, vessel, came.Id.Value.ToString("N")) with
        {
            From = came.Happened.Latest,
            By = came.Happened.Latest + Duration.FromHours(2),
            Reason = new Remark("plan-lid-sponge-no-fish"),
            Cautions = [CautionCode.MainsBesideSaltWater, CautionCode.NoRelease],
            Door = new(DoorCode.MarkDone, Subject.Of(vessel.Id)),
        };

    private static PlannedAction Count(
        Vessel vessel,
        IEnumerable<Occurrence> counted,
        List<Occurrence> home,
        DateTimeZone zone
    )
    {
        var last = counted.Select(it => it.Happened.Latest).DefaultIfEmpty(home[0].Happened.Latest).Max();
        var date = last.InZone(zone).Date.PlusDays(CountEveryDays);
        return Make(ActionCodes.CountJuveniles, vessel, Occasion.Of(date)) with
        {
            From = date.At(new LocalTime(8, 0)).InZoneLeniently(zone).ToInstant(),
            By = date.At(new LocalTime(22, 0)).InZoneLeniently(zone).ToInstant(),
            SlipsUntil = date.PlusDays(CountEveryDays)
                .At(new LocalTime(22, 0))
                .InZoneLeniently(zone)
                .ToInstant(),
            Reason = new Remark("plan-count-juveniles", new Argument("last", last)),
            IfItSlips = new Remark("slip-loss-dated-worse"),
            Door = new(DoorCode.Nursery, Subject.Of(vessel.Id)),
        };
    }

    private static PlannedAction Make(string code, Vessel vessel, string occasion) =>
        new()
        {
            Key = ActionKey.Of(code, Subject.Of(vessel.Id), occasion),
            Code = code,
            About = Subject.Of(vessel.Id),
            From = default,
            By = default,
            Reason = new Remark(code),
            Door = new(DoorCode.MarkDone, Subject.Of(vessel.Id)),
        };
}
