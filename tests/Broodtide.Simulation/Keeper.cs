using System.Globalization;

namespace Broodtide.Simulation;

/// <summary>What an invented keeper writes down up to a moment chosen before the hatch is known.</summary>
public static class Keeper
{
    /// <summary>Rows of day, kind, value, in order; days counted from the first row's own day zero.</summary>
    public static IReadOnlyList<Row> Watch(Dice dice, Tank tank, Eggs eggs)
    {
        List<Row> rows = [];
        var bought = dice.Chance(0.15);
        var firstSeen = bought
            ? eggs.Spawned + (dice.Even() * 0.9 * (eggs.FirstHatch - eggs.Spawned))
            : eggs.Spawned + dice.Between(0.05, dice.Chance(0.3) ? 5 : 2);
        var until = firstSeen + (dice.Even() * (eggs.FirstHatch - firstSeen));
        if (!bought)
        {
            rows.Add(
                new(eggs.Spawned - dice.Between(0, dice.Chance(0.3) ? 4 : 1.5), "last_seen_empty", null)
            );
        }

        rows.Add(new(firstSeen, "berried", null));
        var looks = dice.Between(0.8, 5);
        var misread = 0.03;
        var notesEyes = dice.Chance(0.75);
        var notesColour = dice.Chance(0.6);
        for (var day = firstSeen + dice.Exponential(looks); day < until; day += 0.3 + dice.Exponential(looks))
        {
            rows.Add(new(day, "still_carried", null));
            if (notesEyes && dice.Chance(0.8))
            {
                rows.Add(new(day, day > eggs.Eyed != dice.Chance(misread) ? "eyed" : "not_eyed", null));
            }

            if (notesColour && dice.Chance(0.8) && day > eggs.Pale)
            {
                rows.Add(new(day, "pale", null));
            }

            if (eggs.Saddle is { } saddle && day > saddle && dice.Chance(0.6))
            {
                rows.Add(new(day, "saddle", null));
            }
        }

        rows.AddRange(Thermometer(dice, tank, bought ? firstSeen : eggs.Spawned - 1, until));
        if (dice.Chance(0.04))
        {
            rows.Add(new(until, "dropped", null));
        }

        return [.. rows.OrderBy(row => row.Day)];
    }

    /// <summary>None, a glance now and then, or a logger; each thermometer is wrong in its own steady way.</summary>
    private static IEnumerable<Row> Thermometer(Dice dice, Tank tank, double from, double until)
    {
        var sort = dice.Even();
        if (sort < 0.15)
        {
            yield break;
        }

        var offset = 0.5 * dice.Normal();
        var gap = sort < 0.75 ? dice.Between(1, 6) : 0.25;
        var coarse = sort < 0.75 ? 0.5 : 0.1;
        for (var day = from + (gap * dice.Even()); day < until; day += gap * dice.Between(0.6, 1.4))
        {
            var shown = tank.At(day) + offset + (0.2 * dice.Normal());
            yield return new(day, "temperature", Math.Round(shown / coarse) * coarse);
        }
    }

    /// <summary>One row of events.</summary>
    public readonly record struct Row(double Day, string Kind, double? Value)
    {
        public string Written(double origin) =>
            string.Create(CultureInfo.InvariantCulture, $"{Day - origin:0.###},{Kind},{Value:0.##}");
    }
}
