using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Settling;

/// <summary>
/// Plans the way home. Both ways go through the planner of crossings, downward. Dilution is held while zoeae that are not
/// ready may be in the water (the estimate's 95 % point), below what they are known to complete in.
/// </summary>
public static class Returning
{
    // The practice of moving single ones in small jars tells no minutes; an hour is common practice, no source.
    private const double MinutesInTheCup = 60;

    // A day between partial changes where no hours are told. Common practice, no source.
    private const double HoursBetweenChanges = 24;
    private const int MostSteps = 40;

    // Water of a cup that settled ones are caught into, and what the cup holds. Practice, no source.
    private static readonly Volume InTheCup = Volume.FromMillilitres(200);
    private static readonly Volume Cup = Volume.FromLitres(2);

    /// <summary>The plan of a vessel. Costs the estimate of its larvae.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="order">What it starts from.</param>
    /// <returns>The plan, or a remark why there is none: the vessel's water is not known.</returns>
    public static (ReturnPlan? Plan, Remark? No) Plan(Outlook outlook, ReturnOrder order)
    {
        if (outlook.LedgerOf(order.Vessel) is not { } ledger || ledger.Litres.Middle <= 0.05)
        {
            return (null, new Remark("return-water-not-known", new Argument("vessel", order.Vessel)));
        }

        var vessel = outlook.House.Vessel(order.Vessel);
        var profile = outlook.Profiles.Of(vessel);
        var population = outlook.PopulationIn(order.Vessel);
        var estimate = population is null ? null : outlook.EstimateOf(population);
        var now = estimate is null ? null : SettledNow.In(estimate, order.Vessel);
        var water = new WaterBody(
            Volume.FromLitres(ledger.Litres.Middle),
            Salinity.FromPractical(Math.Max(0, ledger.SalinityPpt.Middle)),
            ledger.Temperature
        );
        var inSteps = InSteps(profile, water, order, now, estimate, WayHome.SettledSeen(vessel));
        return (
            new(
                now,
                inSteps,
                OneByOne(profile, water, order),
                estimate?.Settlement.NineTenths.Late,
                [.. ReturnCares.Of(profile, order, water, inSteps)]
            ),
            null
        );
    }

    /// <summary>The lowest salinity that zoeae of a species are known to complete in, at their latest stage.</summary>
    public static Salinity ZoeaeLimit(SpeciesProfile profile) =>
        profile.SalinityFollowsStage
            ? profile.SalinityAt(profile.Stages.Length - 1).Band.Low
            : profile.LarvalSalinityCompleting.Low;

    private static Dilution InSteps(
        SpeciesProfile profile,
        WaterBody water,
        ReturnOrder order,
        SettledNow? now,
        PopulationEstimate? estimate,
        bool settledSeen
    )
    {
        var (state, floor, hold) = Gate(profile, water, order, now, estimate, settledSeen);
        if (state is DilutionState.Held)
        {
            return new(state, floor, hold, [], null);
        }

        var (steps, refused) = Steps(profile, water, order, floor);
        return new(state, floor, hold, steps, refused);
    }

    private static (DilutionState State, double FloorPpt, Remark? Hold) Gate(
        SpeciesProfile profile,
        WaterBody water,
        ReturnOrder order,
        SettledNow? now,
        PopulationEstimate? estimate,
        bool settledSeen
    )
    {
        var stands = water.Salinity.Practical;
        if (now is null || estimate is null)
        {
            return order.NoZoeaeByWord
                ? (DilutionState.ToFreshWater, 0, new Remark("return-by-your-word"))
                : (DilutionState.Held, stands, new Remark("return-larvae-not-known"));
        }

        var needed = profile.Find("return-settled-share")?.Value ?? 0.5;
        var few = now.SettledShare < needed;
        if (few && order.NoZoeaeByWord && !settledSeen)
        {
            // Late zoeae come less and less to a lamp: a look that found none is not enough where nobody ever saw one settled.
            return (
                DilutionState.Held,
                stands,
                new Remark(
                    "return-word-alone",
                    new("settledShare", now.SettledShare),
                    new("settledShareNeeded", needed),
                    new("halfBy", estimate.Settlement.Half.Late)
                )
            );
        }

        if (few && !order.NoZoeaeByWord)
        {
            return (
                DilutionState.Held,
                stands,
                new Remark(
                    "return-too-few-settled",
                    new("settledShare", now.SettledShare),
                    new("settledShareNeeded", needed),
                    new("halfBy", estimate.Settlement.Half.Late)
                )
            );
        }

        if (!now.ZoeaeMayBeThere)
        {
            return (DilutionState.ToFreshWater, 0, null);
        }

        if (order.NoZoeaeByWord)
        {
            return (
                DilutionState.ToFreshWater,
                0,
                new Remark("return-against-the-estimate", new Argument("zoeaeMost", now.Zoeae.High))
            );
        }

        var floor = ZoeaeLimit(profile).Practical;
        var why = new Remark(
            "return-zoeae-in-the-water",
            new("zoeaeLeast", now.Zoeae.Low),
            new("zoeaeMiddle", now.Zoeae.Middle),
            new("zoeaeMost", now.Zoeae.High),
            new("floorPpt", floor),
            new("until", estimate.Settlement.NineTenths.Late)
        );
        return stands > floor + 0.05
            ? (DilutionState.ToTheZoeaeLimit, floor, why)
            : (DilutionState.Held, stands, why);
    }

    private static (IReadOnlyList<DilutionStep> Steps, CrossingRefusal? Refused) Steps(
        SpeciesProfile profile,
        WaterBody water,
        ReturnOrder order,
        double floorPpt
    )
    {
        var (stepPpt, hours) = Pace(profile, water);
        var steps = new List<DilutionStep>();
        var stands = water;
        while (stands.Salinity.Practical > floorPpt + 0.05 && steps.Count < MostSteps)
        {
            var to = Math.Max(floorPpt, stands.Salinity.Practical - stepPpt);
            // The last traces of salt are no step of their own: the nursery's water takes them.
            to = to < FreshPpt ? Math.Max(floorPpt, FreshPpt) : to;
            if (stands.Salinity.Practical <= FreshPpt + 0.05)
            {
                break;
            }

            var answer = CrossingPlanner.Plan(
                new()
                {
                    CupCapacity = water.Volume,
                    Cup = stands,
                    Source = order.Fresh,
                    Receiving = new(default, default, stands.Temperature),
                    ReceivingBand = SalinityBand.Fresh,
                    CupTarget = Salinity.FromPractical(to),
                    WantedSteps = 1,
                    WantedMinutes = 60,
                    Brackish = Unhurried(profile),
                    AllowJump = true,
                }
            );
            if (answer is not CrossingAnswer.Planned { Plan: { Steps: [.., var last] } plan })
            {
                return (steps, (answer as CrossingAnswer.Refused)?.Refusal);
            }

            steps.Add(
                new(
                    steps.Count + 1,
                    steps.Count * hours,
                    stands.Salinity.Practical,
                    last.After.Salinity.Practical,
                    Volume.FromLitres(plan.Steps.Sum(step => step.DrawOff.Litres)),
                    Volume.FromLitres(plan.Steps.Sum(step => step.Add.Litres))
                )
            );
            stands = new(water.Volume, last.After.Salinity, water.Temperature);
        }

        return (steps, null);
    }

    // At or below this it is fresh: the lower edge of what counts as brackish where nothing else is told.
    private const double FreshPpt = 1;

    // The reported changes, in grams of mix a litre, told as practical salinity; or a flush over the hours of a hatchery.
    private static (double StepPpt, double Hours) Pace(SpeciesProfile profile, WaterBody water)
    {
        var ppt = water.Salinity.Practical;
        if (
            profile.Find("return-salt-step")?.Value is { } grams
            && OtherScales.On(
                water.Salinity,
                water.Temperature,
                SalinityScale.MixPerLitreFinished,
                SaltProduct.Unmeasured
            )
                is { } holds
                    and > 0
        )
        {
            return (Math.Max(0.5, ppt * grams / holds), HoursBetweenChanges);
        }

        var flush = profile.Find("return-hours")?.Value ?? HoursBetweenChanges;
        var parts = Math.Clamp((int)Math.Ceiling(flush), 2, 24);
        return (Math.Max(0.5, ppt / parts), flush / parts);
    }

    private static CrossingAnswer OneByOne(SpeciesProfile profile, WaterBody water, ReturnOrder order) =>
        CrossingPlanner.Plan(
            new()
            {
                CupCapacity = Cup,
                Cup = new(
                    InTheCup < water.Volume ? InTheCup : water.Volume,
                    water.Salinity,
                    water.Temperature
                ),
                Source = order.Fresh,
                Receiving = order.Nursery,
                ReceivingBand = SalinityBand.Fresh,
                WantedMinutes = MinutesInTheCup,
                Brackish = Unhurried(profile),
                AllowJump = true,
            }
        );

    // Post-larvae are on their way through brackish water: its minutes are those of the way.
    private static BrackishRule Unhurried(SpeciesProfile profile) =>
        BrackishRule.From(
            Salinity.FromPractical(Math.Min(FreshPpt, profile.BrackishSalinity.High.Practical)),
            profile.BrackishSalinity.High,
            24 * 60
        );
}
