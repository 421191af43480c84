using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>Changes as remarks, for the doors to put in words.</summary>
public static class WhatIfTelling
{
    /// <summary>What is done, as a code with its amounts.</summary>
    /// <param name="change">The change.</param>
    public static Remark Of(WhatIfChange change) =>
        change switch
        {
            WhatIfChange.SalinityTo salt => new Remark(
                salt.OverDays > 0 ? "whatif-do-salinity-over" : "whatif-do-salinity",
                new("toPpt", salt.To),
                new("overDays", (double)salt.OverDays)
            ),
            WhatIfChange.TemperatureTo warm => new Remark(
                warm.OverDays > 0 ? "whatif-do-temperature-over" : "whatif-do-temperature",
                new("toCelsius", warm.To),
                new("overDays", (double)warm.OverDays)
            ),
            WhatIfChange.LightFor { HoursPerDay: 0 } => new Remark("whatif-do-dark"),
            WhatIfChange.LightFor light => new Remark(
                light.Micromoles is null ? "whatif-do-light" : "whatif-do-light-bright",
                new("hoursLit", light.HoursPerDay),
                new("micromoles", light.Micromoles ?? 0)
            ),
            WhatIfChange.FeedTimes { Factor: 0 } none => new Remark(
                none.ForDays is null ? "whatif-do-no-food" : "whatif-do-no-food-for",
                new Argument("forDays", (double)(none.ForDays ?? 0))
            ),
            WhatIfChange.FeedTimes feed => new Remark(
                feed.ForDays is null ? "whatif-do-feed" : "whatif-do-feed-for",
                new("times", feed.Factor),
                new("forDays", (double)(feed.ForDays ?? 0))
            ),
            WhatIfChange.FoodEachDay food => new Remark(
                "whatif-do-food",
                new Argument("milligrams", food.DryMilligrams)
            ),
            WhatIfChange.AlgaeEachDay algae => new Remark(
                "whatif-do-algae",
                new Argument("perMillilitre", algae.CellsPerMillilitre)
            ),
            WhatIfChange.LarvaeTimes times => new Remark(
                "whatif-do-larvae-times",
                new Argument("times", times.Factor)
            ),
            WhatIfChange.LarvaeNumber number => new Remark(
                "whatif-do-larvae",
                new Argument("number", number.Number)
            ),
            WhatIfChange.Split => new Remark("whatif-do-split"),
            WhatIfChange.AirSet { Air: AirFlow.None } => new Remark("whatif-do-air-off"),
            WhatIfChange.AirSet air => new Remark(
                air.Air is AirFlow.Gentle ? "whatif-do-air-gentle" : "whatif-do-air-strong"
            ),
            WhatIfChange.WaterChanged water => new Remark(
                water.EveryDays > 0 ? "whatif-do-water-every" : "whatif-do-water",
                new("sharePercent", 100 * water.Share),
                new("everyDays", (double)water.EveryDays)
            ),
            WhatIfChange.Skipped skip => new Remark(
                "whatif-do-skip",
                new Argument("forDays", (double)skip.Days)
            ),
            WhatIfChange.Siphoned siphon => new Remark(
                "whatif-do-siphon",
                new Argument("sharePercent", 100 * siphon.Share)
            ),
            _ => throw new ArgumentException($"{change.GetType().Name} is not known.", nameof(change)),
        };
}
