using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Losses;

/// <summary>What can have harmed larvae in how they were kept: food late or missing, nobody counting.</summary>
internal static class LossesByCare
{
    // First food about a day after salt, and half a day more; practice, no source.
    private const double FirstFoodHours = 36;

    // Larvae are fed once or twice a day; two days without a word is long. Practice, no source.
    private const double FoodGapDays = 2;

    // A count a week and some days of grace: a loss nobody counted has no day.
    private const double CountEveryDays = 10;

    public static IEnumerable<LossSuspect> Food(LarvaStay stay)
    {
        var fed = stay.Facts<VesselFed>().Select(pair => pair.When).Order().ToList();
        if (fed.Count == 0)
        {
            yield return new(
                Math.Min(3, stay.Hours / FirstFoodHours),
                new Remark(
                    "loss-no-food-written",
                    new("hours", stay.Hours),
                    new("limitHours", FirstFoodHours)
                ),
                new Remark("change-food-ready-before")
            );
            yield break;
        }

        var wait = (fed[0] - stay.Since).TotalHours;
        yield return new(
            Math.Max(0, wait) / FirstFoodHours,
            new Remark("loss-food-late", new("hours", Math.Max(0, wait)), new("limitHours", FirstFoodHours)),
            new Remark("change-food-ready-before")
        );
        var gap = fed.Append(stay.Until)
            .Zip(fed.Skip(1).Append(stay.Until), (a, b) => (b - a).TotalDays)
            .Max();
        yield return new(
            gap / FoodGapDays,
            new Remark("loss-food-gap", new("days", gap), new("limitDays", FoodGapDays)),
            new Remark("change-feed-little-every-day")
        );
    }

    public static IEnumerable<LossSuspect> Unseen(LarvaStay stay)
    {
        var counts = stay.Facts<CountMade>().Select(pair => pair.When).Order().ToList();
        var times = counts.Prepend(stay.Since).Append(stay.Until).ToList();
        var gap = times.Zip(times.Skip(1), (a, b) => (b - a).TotalDays).Max();
        if (gap > CountEveryDays)
        {
            yield return new(
                Math.Min(0.95, LossSuspects.NotExcluded * gap / CountEveryDays),
                new Remark("loss-nobody-counted", new("days", gap), new("counts", counts.Count)),
                new Remark("change-count-every-week")
            );
        }
    }
}
