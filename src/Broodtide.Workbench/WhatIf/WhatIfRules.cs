using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>What may be tried, and what is to be said of it.</summary>
public static class WhatIfRules
{
    /// <summary>Saltiest that is tried: where published formulas of sea water end.</summary>
    public const double MostSalinity = 42;

    /// <summary>Coldest that is tried, degC: below it the twin's rates were measured nowhere.</summary>
    public const double LeastCelsius = 5;

    /// <summary>Warmest that is tried, degC.</summary>
    public const double MostCelsius = 40;

    /// <summary>Most food, as times of what is given now.</summary>
    public const double MostTimes = 10;

    /// <summary>Most dry food a day, mg/L; more fouls any vessel (common practice, no source).</summary>
    public const double MostFoodMilligramsPerLitre = 500;

    /// <summary>Most algae a day, cells/mL of the vessel: denser than usual cultures.</summary>
    public const double MostCellsPerMillilitre = 1e8;

    /// <summary>Most larvae.</summary>
    public const double MostLarvae = 100_000;

    /// <summary>Most of the water that is changed at once, share.</summary>
    public const double MostOfWater = 0.9;

    // What larvae bear at once without need: common practice, no source.
    private const double StepPpt = 1;
    private const double StepCelsius = 1;
    private const double Rounding = 1e-9;

    /// <summary>Why changes cannot be tried, each with what is allowed; empty where they can.</summary>
    /// <param name="ground">What they are tried on.</param>
    /// <param name="changes">The changes.</param>
    public static IReadOnlyList<Remark> Refusals(WhatIfGround ground, IReadOnlyList<WhatIfChange> changes)
    {
        var refused = new List<Remark>();
        if (changes.Count == 0)
        {
            refused.Add(new Remark("whatif-nothing-changed"));
        }

        foreach (var twice in changes.GroupBy(Kind).Where(kind => kind.Count() > 1))
        {
            refused.Add(new Remark("whatif-changed-twice", new Argument("change", twice.Key)));
        }

        var days = ground.Days;
        foreach (var change in changes)
        {
            switch (change)
            {
                case WhatIfChange.SalinityTo salt:
                    Note("whatif-salinity-impossible", salt.To, 0, MostSalinity);
                    Note("whatif-over-impossible", salt.OverDays, 0, days);
                    break;
                case WhatIfChange.TemperatureTo warm:
                    Note("whatif-temperature-impossible", warm.To, LeastCelsius, MostCelsius);
                    Note("whatif-over-impossible", warm.OverDays, 0, days);
                    break;
                case WhatIfChange.LightFor light:
                    Note("whatif-light-impossible", light.HoursPerDay, 0, 24);
                    Note(
                        "whatif-bright-impossible",
                        light.Micromoles ?? 0,
                        0,
                        VesselTwin.MostLightMicromoles
                    );
                    break;
                case WhatIfChange.FeedTimes feed:
                    Note("whatif-feed-impossible", feed.Factor, 0, MostTimes);
                    Note("whatif-feed-days-impossible", feed.ForDays ?? 1, 1, days);
                    break;
                case WhatIfChange.FoodEachDay food:
                    Note(
                        "whatif-food-impossible",
                        food.DryMilligrams,
                        0,
                        Math.Round(MostFoodMilligramsPerLitre * ground.HourNow.Water.Litres)
                    );
                    break;
                case WhatIfChange.AlgaeEachDay algae:
                    Note("whatif-algae-impossible", algae.CellsPerMillilitre, 0, MostCellsPerMillilitre);
                    break;
                case WhatIfChange.LarvaeTimes times:
                    Note("whatif-larvae-times-impossible", times.Factor, 0, MostTimes);
                    Larvae();
                    break;
                case WhatIfChange.LarvaeNumber number:
                    Note("whatif-larvae-impossible", number.Number, 0, MostLarvae);
                    Larvae();
                    break;
                case WhatIfChange.WaterChanged water:
                    Note("whatif-water-impossible", 100 * water.Share, 0, 100 * MostOfWater);
                    Note("whatif-every-impossible", water.EveryDays, 0, days);
                    break;
                case WhatIfChange.Skipped skip:
                    Note("whatif-skip-impossible", skip.Days, 1, days);
                    break;
                case WhatIfChange.Siphoned siphon:
                    Note("whatif-siphon-impossible", 100 * siphon.Share, 0, 100);
                    break;
                default:
                    break;
            }
        }

        return refused;

        void Note(string code, double given, double least, double most)
        {
            if (!(given >= least && given <= most))
            {
                refused.Add(new Remark(code, new("given", given), new("least", least), new("most", most)));
            }
        }

        void Larvae()
        {
            if (ground.Larvae is null || ground.HourNow.Larvae.Middle <= 0)
            {
                refused.Add(new Remark("whatif-no-larvae"));
            }
        }
    }

    /// <summary>What is to be minded of changes that can be tried.</summary>
    /// <param name="ground">What they are tried on.</param>
    /// <param name="changes">The changes.</param>
    public static IReadOnlyList<Remark> Cautions(WhatIfGround ground, IReadOnlyList<WhatIfChange> changes)
    {
        var said = new List<Remark>();
        foreach (var change in changes)
        {
            switch (change)
            {
                case WhatIfChange.SalinityTo salt
                    when Math.Abs(salt.To - ground.HourNow.Salinity.Practical) / Math.Max(1, salt.OverDays)
                        is > StepPpt + Rounding
                            and var step:
                    said.Add(
                        new Remark(
                            "whatif-salinity-step",
                            new("stepPpt", step),
                            new("gentlePpt", StepPpt),
                            new("gentleDays", DaysAt(salt.To - ground.HourNow.Salinity.Practical, StepPpt))
                        )
                    );
                    break;
                case WhatIfChange.TemperatureTo warm
                    when Math.Abs(warm.To - ground.HourNow.Temperature.Celsius) / Math.Max(1, warm.OverDays)
                        is > StepCelsius + Rounding
                            and var step:
                    said.Add(
                        new Remark(
                            "whatif-temperature-step",
                            new("step", step),
                            new("gentle", StepCelsius),
                            new(
                                "gentleDays",
                                DaysAt(warm.To - ground.HourNow.Temperature.Celsius, StepCelsius)
                            )
                        )
                    );
                    break;
                case WhatIfChange.FeedTimes when !IsFed(ground):
                    said.Add(new Remark("whatif-nothing-fed"));
                    break;
                case WhatIfChange.LarvaeTimes or WhatIfChange.LarvaeNumber:
                    said.Add(new Remark("whatif-larvae-alike"));
                    break;
                case WhatIfChange.Split:
                    said.Add(new Remark("whatif-split-told"));
                    break;
                case WhatIfChange.Skipped when changes.Count > 1:
                    said.Add(new Remark("whatif-hands-after-skip"));
                    break;
                default:
                    break;
            }
        }

        return said;
    }

    private static bool IsFed(WhatIfGround ground) =>
        ground.AsItIs.Events.Any(done => done.Hour >= ground.FromHour && FutureCourse.IsMeal(done));

    private static double DaysAt(double all, double step) => Math.Ceiling((Math.Abs(all) / step) - Rounding);

    // Two ways to feed, and two numbers of larvae, would each undo the other.
    private static string Kind(WhatIfChange change) =>
        change switch
        {
            WhatIfChange.SalinityTo => "salinity",
            WhatIfChange.TemperatureTo => "temperature",
            WhatIfChange.LightFor => "light",
            WhatIfChange.FeedTimes or WhatIfChange.FoodEachDay or WhatIfChange.AlgaeEachDay => "feeding",
            WhatIfChange.LarvaeTimes or WhatIfChange.LarvaeNumber => "larvae",
            WhatIfChange.Split => "split",
            WhatIfChange.AirSet => "air",
            WhatIfChange.WaterChanged => "water change",
            WhatIfChange.Skipped => "skip",
            WhatIfChange.Siphoned => "siphon",
            _ => change.GetType().Name,
        };
}
