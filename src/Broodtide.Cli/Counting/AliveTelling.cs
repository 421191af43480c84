using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Workbench.Population;
using NodaTime;

namespace Broodtide.Cli.Counting;

/// <summary>One population as it is told at one instant, for machines.</summary>
/// <param name="saying">Makes words.</param>
/// <param name="house">Whose names they are.</param>
internal sealed class AliveTelling(Saying saying, House house)
{
    private readonly Naming _naming = new(house);
    private readonly FactWords _facts = new(saying, house);

    public PopulationJson Of(LarvalPopulation population, Instant? day, bool why)
    {
        var estimate = population.Estimate(day is { } asked ? [asked] : []);
        var moment =
            estimate.Asked.Count > 0
                ? estimate.Asked[0]
                : new(
                    estimate.Now,
                    estimate.All,
                    [.. estimate.Vessels.Select(part => new AliveIn<VesselId>(part.Id, part.Now))],
                    [.. estimate.Cohorts.Select(part => new AliveIn<CohortId>(part.Id, part.Now))],
                    estimate.Stages,
                    estimate.SurvivedShare
                );
        return new(
            [.. population.Broods.Select(brood => _naming.BroodName(brood) ?? Naming.Short(brood.Value))],
            Saying.Iso(moment.At),
            PointsJson.Of(moment.All.Alive),
            PointsJson.Of(moment.SurvivedShare),
            [
                .. moment.Vessels.Select(part => new AlivePartJson(
                    house.Vessel(part.Id).Name ?? Naming.Short(part.Id.Value),
                    PointsJson.Of(part.Point.Alive)
                )),
            ],
            [
                .. moment.Cohorts.Select(part => new AlivePartJson(
                    _naming.NameOf(part.Id) ?? Naming.Short(part.Id.Value),
                    PointsJson.Of(part.Point.Alive)
                )),
            ],
            [
                .. moment.Stages.Select(stage => new AliveStageJson(
                    stage.Stage,
                    PointsJson.Of(stage.Number),
                    stage.Share
                )),
            ],
            new(
                InstantsJson.Of(estimate.Settlement.First),
                InstantsJson.Of(estimate.Settlement.Tenth),
                InstantsJson.Of(estimate.Settlement.Half),
                InstantsJson.Of(estimate.Settlement.NineTenths)
            ),
            PointsJson.Of(estimate.Juveniles),
            Saying.Iso(estimate.JuvenilesOn),
            estimate.IsRough,
            [
                .. estimate.WhatHelps.Select(help => new HelpfulJson(
                    EnumWords.Of(help.Kind),
                    EnumWords.Of(help.Narrows),
                    help.AliveNarrowedShare,
                    help.SettlementNarrowedShare
                )),
            ],
            estimate.WhatHelps is [var most, ..] ? Helps(most) : null,
            [.. estimate.Conflicts.Select(saying.Json)],
            [.. estimate.Remarks.Select(saying.Json)],
            [
                .. estimate.Track.Select(point => new AlivePointJson(
                    Saying.Iso(point.At),
                    PointsJson.Of(point.Alive),
                    [.. point.StageShares]
                )),
            ],
            why
                ? [.. population.WithoutEach(estimate, day).Select(weight => Why(weight, estimate, moment))]
                : null
        );
    }

    private EntryWeightJson Why(EntryWeight weight, PopulationEstimate estimate, PopulationMoment moment) =>
        new(
            Naming.Short(weight.Entry.Id),
            Saying.Iso(weight.Entry.Happened.Middle),
            _facts.Of(weight.Entry.Fact),
            PointsJson.Of(weight.AliveWithout),
            moment.All.Alive.Middle - weight.AliveWithout.Middle,
            InstantsJson.Of(weight.HalfSettledWithout),
            (estimate.Settlement.Half.Middle - weight.HalfSettledWithout.Middle).TotalDays,
            weight.Weight
        );

    private string Helps(HelpfulLook look) =>
        saying.Of(
            Saying.Key(look.Narrows),
            [
                new("look", Saying.Of(look.Kind)),
                new("alivePercent", 100 * look.AliveNarrowedShare),
                new("settlementPercent", 100 * look.SettlementNarrowedShare),
            ]
        );
}
