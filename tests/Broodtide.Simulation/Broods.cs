using System.Globalization;

namespace Broodtide.Simulation;

/// <summary>Writes folders of invented broods: events.csv and truth.csv in each.</summary>
public static class Broods
{
    private const int Days = 150;
    private const double EarliestSpawning = 20;

    public static void Write(string folder, int count, ulong seed)
    {
        for (var i = 1; i <= count; i++)
        {
            var dice = new Dice((seed * 1_000_003UL) + (ulong)i);
            var tank = Tank.Invent(dice, Days);
            var eggs = Eggs.Invent(dice, tank, EarliestSpawning + dice.Even());
            var rows = Keeper.Watch(dice, tank, eggs);
            // Whole days, so that midnight stays where it is.
            var origin = Math.Floor(rows[0].Day);
            var run = Path.Combine(folder, i.ToString("000", CultureInfo.InvariantCulture));
            Directory.CreateDirectory(run);
            File.WriteAllLines(
                Path.Combine(run, "events.csv"),
                ["t_days,kind,value", .. rows.Select(row => row.Written(origin))]
            );
            var hatch = (eggs.FirstHatch - origin).ToString("0.###", CultureInfo.InvariantCulture);
            File.WriteAllLines(
                Path.Combine(run, "truth.csv"),
                ["t_days,quantity,value", $"{hatch},first_hatch,{hatch}"]
            );
        }
    }
}
