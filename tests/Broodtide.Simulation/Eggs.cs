namespace Broodtide.Simulation;

/// <summary>The true course of one invented clutch, in days of the simulation.</summary>
/// <param name="Spawned">When the eggs were laid.</param>
/// <param name="Eyed">When eyes became visible.</param>
/// <param name="Pale">When the eggs turned pale.</param>
/// <param name="Saddle">When a new saddle showed; none on many females.</param>
/// <param name="FirstHatch">When the first larvae came out.</param>
public readonly record struct Eggs(
    double Spawned,
    double Eyed,
    double Pale,
    double? Saddle,
    double FirstHatch
)
{
    /// <summary>
    /// Hour by hour, with a rate that follows a curved thermal performance (a constant ratio per ten degrees, a bend
    /// above 31), a female's own factor, and development that goes in uneven little steps. Eyes come at a share that
    /// leans on temperature and on the female, between a third and three quarters. Larvae mostly wait for the dark.
    /// </summary>
    public static Eggs Invent(Dice dice, Tank tank, double spawned)
    {
        var own = 1 + (0.2 * (dice.Even() + dice.Even() + dice.Even() - 1.5)) + (0.05 * dice.Normal());
        var warmthRatio = dice.Between(1.8, 2.8);
        var eyedShare = Math.Clamp(
            dice.Triangular(0.36, 0.52, 0.72) + (0.012 * (tank.At(spawned + 5) - 24.5)),
            1 / 3.0,
            0.75
        );
        var done = 0.0;
        var eyed = double.NaN;
        var day = spawned;
        while (done < 1)
        {
            var celsius = tank.At(day);
            var bend = celsius > 31 ? Math.Exp(-0.3 * (celsius - 31)) : 1;
            var rate = Math.Pow(warmthRatio, (celsius - 25.5) / 10) * bend / (25 * own);
            // Uneven steps: gamma increments with the right mean.
            done += rate / Tank.HoursADay * dice.GammaOfMeanOne(3);
            day += 1.0 / Tank.HoursADay;
            if (double.IsNaN(eyed) && done >= eyedShare)
            {
                eyed = day;
            }
        }

        var hatch = dice.Chance(0.88) ? NextDark(day) + dice.Between(0, 0.3) : day;
        var paleLead = 1 + (2.2 * Math.Pow(-Math.Log(1 - dice.Even()), 1 / 1.8));
        double? saddle = dice.Chance(0.4) ? hatch - dice.Between(1, 10) : null;
        return new(spawned, eyed, Math.Max(eyed, hatch - paleLead), saddle, hatch);
    }

    /// <summary>Dark from nine in the evening to five in the morning; days begin at midnight.</summary>
    private static double NextDark(double day)
    {
        var ofDay = day - Math.Floor(day);
        return ofDay is < 0.2 or > 0.875 ? day : Math.Floor(day) + 0.875;
    }
}
