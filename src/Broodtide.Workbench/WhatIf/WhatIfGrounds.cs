using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.WhatIf;

/// <summary>Finds what a question starts from: the twin of a vessel as it was learned, its larvae, its keeper's habits.</summary>
public static class WhatIfGrounds
{
    private const double MillilitresPerLitre = 1000;

    /// <summary>The ground of a vessel, or why there is none.</summary>
    /// <param name="outlook">What is known, for its instant.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="days">Days to look ahead.</param>
    public static Parsed<WhatIfGround> Of(Outlook outlook, VesselId vessel, int days) =>
        InPieces(outlook, vessel, days).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<Parsed<WhatIfGround>?> InPieces(Outlook outlook, VesselId vessel, int days)
    {
        if (days is < 1 or > WhatIfGround.MostDays)
        {
            yield return Parsed<WhatIfGround>.No(
                "whatif-days-impossible",
                new("given", (double)days),
                new("least", 1.0),
                new("most", (double)WhatIfGround.MostDays)
            );
            yield break;
        }

        foreach (var step in outlook.SafetySteps(vessel))
        {
            step();
            yield return null;
        }

        if (
            outlook.SafetyAtHand(vessel) is not { Run: { Story.NowHour: >= 1 } run } safety
            || outlook.LedgerOf(vessel) is not { } ledger
        )
        {
            yield return Parsed<WhatIfGround>.No("whatif-no-water", new Argument("vessel", vessel));
            yield break;
        }

        var population = outlook.PopulationIn(vessel);
        foreach (var step in population is null ? [] : outlook.StepsOf(population))
        {
            step();
            yield return null;
        }

        var profile = outlook.Profiles.Of(outlook.House.Vessel(vessel));
        var estimate = population is null ? null : outlook.EstimateOf(population);
        var track = TrackOf(estimate, vessel, outlook.Now, days);
        var (scene, assumed) = GoingOn.Of(run.Story.Scene, run.Story.NowHour, days, track);
        yield return null;
        var limits = profile.LimitsFor(safety.Stage ?? LifeStage.EarlyZoea);
        yield return Parsed<WhatIfGround>.Of(
            new()
            {
                Vessel = vessel,
                Now = outlook.Now,
                AsItIs = scene,
                Members = run.Now,
                Days = days,
                EvaporationLitresPerDay = Math.Max(
                    0,
                    ledger.EvaporationMillilitresPerDay.Middle / MillilitresPerLitre
                ),
                Larvae = track is null ? null : LarvaeOf(population, estimate, vessel, profile),
                AmmoniaLimit = Limit(LimitedQuantity.UnionisedAmmonia),
                OxygenLimit = Limit(LimitedQuantity.Oxygen),
                Assumed = [.. assumed, .. run.Story.Assumes],
            }
        );

        double? Limit(LimitedQuantity quantity) =>
            limits.FirstOrDefault(limit => limit.Quantity == quantity && !limit.IsDanger)?.Value;
    }

    // Larvae alive in the vessel, day by day from now; none where nobody is believed to live there.
    private static List<Interval>? TrackOf(
        PopulationEstimate? estimate,
        VesselId vessel,
        Instant now,
        int days
    )
    {
        if (
            estimate?.Vessels.FirstOrDefault(part => part.Id == vessel)
            is not { Now.Alive.High: >= 1, Track: [_, ..] points }
        )
        {
            return null;
        }

        return
        [
            .. Enumerable
                .Range(0, days)
                .Select(day =>
                    (
                        points.LastOrDefault(point => point.At <= now + Duration.FromDays(day)) ?? points[0]
                    ).Alive
                ),
        ];
    }

    private static WhatIfLarvae? LarvaeOf(
        LarvalPopulation? population,
        PopulationEstimate? estimate,
        VesselId vessel,
        SpeciesProfile profile
    )
    {
        if (population is null || estimate?.Learned is not { } learned)
        {
            return null;
        }

        var number = population.Vessels.Index().First(one => one.Item == vessel).Index;
        return population.Run.InVessel(number) == 0
            ? null
            : new()
            {
                Run = population.Run,
                Learned = learned,
                Vessel = number,
                Conditions = LarvalBeliefs.Conditions(profile),
            };
    }
}
