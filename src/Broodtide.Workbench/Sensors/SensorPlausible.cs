using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Sensors;

/// <summary>What water with these animals shows and how fast it moves: common practice, no source.</summary>
internal static class SensorPlausible
{
    // Times the days in which water moves by one step of the sensor, and at least half a day.
    private const double StuckTimes = 4;
    private static readonly NodaTime.Duration LeastStuck = NodaTime.Duration.FromHours(12);

    /// <summary>The usual step of such a sensor, in its unit; none for a unit whose water nobody described.</summary>
    public static double? UsualStep(string unit) => Movement(unit)?.UsualStep;

    /// <summary>How long it may show one value before it is called stuck; none for a unit that is not described.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="step">The smallest step of the sensor, in its unit; the usual one if left out.</param>
    public static NodaTime.Duration? MayStand(string unit, double? step)
    {
        if (Movement(unit) is not var (moves, usual))
        {
            return null;
        }

        var plausible = NodaTime.Duration.FromDays(StuckTimes * (step ?? usual) / moves);
        return NodaTime.Duration.Max(plausible, LeastStuck);
    }

    /// <summary>What no living water is below or above; none for a unit that is not described.</summary>
    public static (double Lowest, double Highest)? Range(string unit) =>
        unit switch
        {
            "Cel" => (1, 45),
            "[degF]" => (33.8, 113),
            UnitCode.PracticalSalinity => (0, 60),
            "sal:mS/cm" or "sal:mS/cm-25" => (0, 90),
            "[pH]" => (4, 11),
            "mg/L{O2}" => (0, 25),
            "%{O2}" => (0, 300),
            _ => null,
        };

    // How much such water moves in a day, and the usual step of such a sensor.
    private static (double Moves, double UsualStep)? Movement(string unit) =>
        unit switch
        {
            "Cel" => (0.5, 0.1),
            "[degF]" => (0.9, 0.1),
            UnitCode.PracticalSalinity => (0.2, 0.1),
            "sal:mS/cm" or "sal:mS/cm-25" => (0.3, 0.1),
            "[pH]" => (0.1, 0.01),
            "mg/L{O2}" => (0.5, 0.1),
            "%{O2}" => (5, 1),
            _ => null,
        };
}
