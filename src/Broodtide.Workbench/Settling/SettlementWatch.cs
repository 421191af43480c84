using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>When to look for settled ones in a vessel, what to look for, and what a look does not tell.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Settlement">When the first, a tenth, half and nine tenths settle.</param>
/// <param name="Now">How many have settled by now.</param>
/// <param name="Signs">What is seen of settled ones, with its source.</param>
/// <param name="FirstSeen">When settled ones were first written of; none if never.</param>
/// <param name="NotGivenUpBefore">Before this nobody says that all are dead, whatever was seen.</param>
/// <param name="Remarks">What a look does not tell, and what the window rests on.</param>
public sealed record SettlementWatch(
    VesselId Vessel,
    SettlementForecast Settlement,
    SettledNow Now,
    IReadOnlyList<StageSign> Signs,
    Instant? FirstSeen,
    Instant NotGivenUpBefore,
    IReadOnlyList<Remark> Remarks
)
{
    // Beyond the latest day at which nine in ten have settled. Practice, no source.
    private static readonly Duration Grace = Duration.FromDays(14);

    /// <summary>The watch of a vessel; none where no larvae are estimated in it. Costs the estimate.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    public static SettlementWatch? Of(Outlook outlook, VesselId vessel)
    {
        if (
            outlook.PopulationIn(vessel) is not { } population
            || outlook.EstimateOf(population) is not { } estimate
            || SettledNow.In(estimate, vessel) is not { } now
        )
        {
            return null;
        }

        var profile = outlook.Profiles.Of(outlook.House.Vessel(vessel));
        var seen = outlook
            .House.Told<SettlementSeen>(Subject.Of(vessel))
            .Where(told => told.Happened.Latest <= outlook.Now)
            .Select(told => (Instant?)told.Happened.Latest)
            .FirstOrDefault();
        var until = estimate.Settlement.NineTenths.Late + Grace;
        return new(
            vessel,
            estimate.Settlement,
            now,
            [.. profile.Stages[^1].Signs],
            seen,
            until,
            [.. Doubts(profile, until), .. BorrowedNumbers.Of(profile, BorrowedNumbers.OfLarvae)]
        );
    }

    private static IEnumerable<Remark> Doubts(SpeciesProfile profile, Instant until)
    {
        yield return new Remark("settling-few-seen-is-not-many-dead");
        var fades = profile.Stages.FirstOrDefault(stage =>
            stage.Signs.Any(sign =>
                string.Equals(sign.Code, "light-attraction-fades", StringComparison.Ordinal)
            )
        );
        yield return fades is { } stage
            ? new Remark("settling-light-draws-less-from", new Argument("stage", stage.Code))
            : new Remark("settling-light-draws-less");
        yield return new Remark("settling-nothing-given-up-before", new Argument("until", until));
    }
}
