namespace Broodtide.Simulation.Waters;

/// <summary>
/// Acidity, gas and ammonia in sea water by short forms of the generator's own: carbonate constants of about pK 5.9 and
/// 9.0 at salinity 30, oxygen by Henry's law with a salt term, ammonia by pK 9.37 at 25 degC. All from memory, good to
/// a tenth of a unit, which is why they judge and are not shown to anybody.
/// </summary>
public static class Acid
{
    /// <summary>Carbon dioxide in water that stands in balance with room air of 600 ppm, mmol/L.</summary>
    public const double DissolvedGasInAir = 0.0175;

    private static double First(double celsius) => Math.Pow(10, -(5.9 - (0.008 * (celsius - 25))));

    private static double Second(double celsius) => Math.Pow(10, -(9.0 - (0.014 * (celsius - 25))));

    /// <summary>Acidity from carbon and alkalinity, mmol/L, borate left at two tenths of a mmol.</summary>
    public static double PhOf(double carbonic, double alkalinity, double celsius)
    {
        var (k1, k2) = (First(celsius), Second(celsius));
        // Above that chalk falls out.
        var (low, high) = (5.5, 9.8);
        for (var i = 0; i < 40; i++)
        {
            var ph = 0.5 * (low + high);
            var h = Math.Pow(10, -ph);
            var bicarbonate = carbonic / (1 + (h / k1) + (k2 / h));
            var borate = 0.35 / (1 + (h / 2.2e-9));
            if ((bicarbonate * (1 + (2 * k2 / h))) + borate < alkalinity)
            {
                low = ph;
            }
            else
            {
                high = ph;
            }
        }

        return 0.5 * (low + high);
    }

    public static double CarbonDioxide(double carbonic, double ph, double celsius)
    {
        var h = Math.Pow(10, -ph);
        return carbonic / (1 + (First(celsius) / h) + (First(celsius) * Second(celsius) / (h * h)));
    }

    public static double UnionisedShare(double ph, double celsius, double salinity) =>
        1 / (1 + Math.Pow(10, 9.25 + (0.0033 * salinity) - (0.032 * (celsius - 25)) - ph));

    /// <summary>mg/L: a straight curve through usual table values at 20 and 30 degC, less by 0.55 % a unit of salinity.</summary>
    public static double OxygenAtSaturation(double celsius, double salinity) =>
        (9.09 * Math.Exp(-0.0184 * (celsius - 20))) * (1 - (0.0055 * salinity));
}
