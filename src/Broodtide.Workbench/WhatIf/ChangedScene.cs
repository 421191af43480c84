using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>
/// A vessel as it would go on under changes. What is done by hand begins when somebody is there again; lamp, air and
/// heater are set before.
/// </summary>
public static class ChangedScene
{
    /// <summary>The scene of the ground under changes that <see cref="WhatIfRules"/> lets pass.</summary>
    /// <param name="ground">As it is.</param>
    /// <param name="changes">What is changed; their order is without influence.</param>
    public static VesselScene Of(WhatIfGround ground, IReadOnlyList<WhatIfChange> changes)
    {
        var scene = ground.AsItIs;
        var from = ground.FromHour;
        var skipped = changes.OfType<WhatIfChange.Skipped>().Select(skip => 24 * skip.Days).FirstOrDefault();
        var by = Math.Min(from + skipped, ground.EndHour);
        foreach (var change in changes.OrderBy(Turn))
        {
            scene = change switch
            {
                WhatIfChange.LightFor light => ChangedSettings.Lit(scene, light, from),
                WhatIfChange.AirSet air => SceneHours.After(scene, from, hour => hour with { Air = air.Air }),
                WhatIfChange.TemperatureTo warm => ChangedSettings.Warmed(scene, warm, ground),
                WhatIfChange.LarvaeTimes times => ChangedSettings.Populated(scene, by, times.Factor),
                WhatIfChange.LarvaeNumber number => ChangedSettings.Populated(
                    scene,
                    by,
                    LarvaFactor(ground, [number])
                ),
                WhatIfChange.FoodEachDay food => ChangedMeals.Daily(
                    scene,
                    by,
                    ground.EndHour,
                    at => new VesselEvent.Fed(at, Mass.FromMilligrams(food.DryMilligrams), food.Composition)
                ),
                WhatIfChange.AlgaeEachDay algae => ChangedMeals.Daily(
                    scene,
                    by,
                    ground.EndHour,
                    at => new VesselEvent.AlgaeGiven(
                        at,
                        algae.CellsPerMillilitre * 1000 * scene.Hours[at].Water.Litres
                    )
                ),
                WhatIfChange.FeedTimes feed => ChangedMeals.Fed(
                    scene,
                    by,
                    feed.ForDays is { } days ? by + (24 * days) : int.MaxValue,
                    feed.Factor
                ),
                WhatIfChange.WaterChanged water => ChangedWater.Renewed(scene, water, by, ground.EndHour),
                WhatIfChange.SalinityTo salt => ChangedWater.Salted(scene, salt, by, ground.EndHour),
                WhatIfChange.Siphoned siphon => SceneHours.By(
                    scene,
                    by,
                    ground.EndHour,
                    new VesselEvent.Siphoned(by, Probability.FromFraction(siphon.Share))
                ),
                WhatIfChange.Split => ChangedWater.Halved(scene, by, ground.EndHour),
                WhatIfChange.Skipped => ChangedWater.Left(scene, from, by, ground.EvaporationLitresPerDay),
                _ => throw new ArgumentException($"{change.GetType().Name} is not known.", nameof(changes)),
            };
        }

        return scene;
    }

    /// <summary>How many times as many larvae there are under changes: in the vessel, or in both after it was split.</summary>
    internal static double LarvaFactor(WhatIfGround ground, IReadOnlyList<WhatIfChange> changes) =>
        changes
            .Select(change =>
                change switch
                {
                    WhatIfChange.LarvaeTimes times => times.Factor,
                    WhatIfChange.LarvaeNumber { Number: var number }
                        when ground.HourNow.Larvae.Middle is > 0 and var now => number / now,
                    _ => 1.0,
                }
            )
            .Aggregate(1.0, (all, factor) => all * factor);

    // Food in place of food before what multiplies it; water before salt; what halves all before what skips.
    private static int Turn(WhatIfChange change) =>
        change switch
        {
            WhatIfChange.FoodEachDay or WhatIfChange.AlgaeEachDay => 0,
            WhatIfChange.FeedTimes => 1,
            WhatIfChange.WaterChanged => 2,
            WhatIfChange.SalinityTo => 3,
            WhatIfChange.Split => 4,
            WhatIfChange.Skipped => 5,
            _ => 0,
        };
}
