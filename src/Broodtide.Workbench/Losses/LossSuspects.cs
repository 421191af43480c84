using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>
/// What the journal shows of a run against what is held for good, the farthest beyond its limit first. How far is a ratio to
/// the limit, so that minutes, hours and milligrams can stand in one row; it says nothing of how many larvae it cost.
/// </summary>
internal static class LossSuspects
{
    /// <summary>Nothing was measured: not shown, but it cannot be excluded.</summary>
    public const double NotExcluded = 0.5;

    public static IReadOnlyList<LossSuspect> Of(Outlook outlook, Run run, Brood brood, SpeciesProfile profile)
    {
        var until = run.Ended?.When.Latest ?? outlook.Now;
        var suspects = new List<LossSuspect>();
        suspects.AddRange(LossesBeforeVessel.BeforeTheSea(brood, profile));
        if (brood.Crossings.Count > 0)
        {
            suspects.AddRange(LossesBeforeVessel.Crossing(brood, profile, outlook.Zone));
            foreach (var vessel in outlook.House.VesselsOf(brood.Id))
            {
                var since = brood
                    .Crossings.Where(crossing => crossing.Made.To == vessel.Id)
                    .Select(crossing => (Instant?)crossing.When.Latest)
                    .Min();
                var stay = new LarvaStay(outlook, vessel, since ?? brood.Crossings[0].When.Latest, until);
                suspects.AddRange(LossesByCare.Food(stay));
                suspects.AddRange(LossesByWater.Ammonia(stay, profile));
                suspects.AddRange(LossesByWater.Warmth(stay, profile));
                suspects.AddRange(LossesByWater.Salt(stay, profile));
                suspects.AddRange(LossesByCare.Unseen(stay));
            }
        }

        if (suspects.Count == 0)
        {
            suspects.Add(new(0, new Remark("loss-nothing-shown"), new Remark("change-measure-more")));
        }

        // One of a kind: the worst vessel speaks for all.
        return
        [
            .. suspects
                .GroupBy(suspect => suspect.Shown.Code, StringComparer.Ordinal)
                .Select(kind => kind.MaxBy(suspect => suspect.Ratio)!)
                .OrderByDescending(suspect => suspect.Ratio)
                .ThenBy(suspect => suspect.Shown.Code, StringComparer.Ordinal),
        ];
    }

    /// <summary>Whether settled ones or juveniles were seen where larvae of a brood lived.</summary>
    public static bool SawSettled(House house, BroodId brood, Instant now)
    {
        var first = house.Brood(brood).Crossings.Min(crossing => crossing.When.Earliest);
        return house
            .VesselsOf(brood)
            .SelectMany(vessel => house.Account.About(Subject.Of(vessel.Id)))
            .Any(occurrence =>
                occurrence.Happened.Latest >= first
                && occurrence.Happened.Latest <= now
                && occurrence.Fact
                    is SettlementSeen { Number: null or > 0 }
                        or JuvenilesReturned { Number: null or > 0 }
            );
    }
}
