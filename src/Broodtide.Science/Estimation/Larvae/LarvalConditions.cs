using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// How temperature, salinity and food act on larvae: development goes linearly with temperature above a base,
/// slower without food; the hazard rises outside what a species bears. Shapes and slopes are assumptions of this
/// project; the corners come from the species profile.
/// </summary>
public sealed record LarvalConditions
{
    /// <summary>Temperature at which a day counts as one day of development.</summary>
    public Temperature Reference { get; init; } = Temperature.FromCelsius(25);

    /// <summary>Temperature below which nothing develops, in the linear model.</summary>
    public Temperature Base { get; init; } = Temperature.FromCelsius(12);

    /// <summary>Temperature above which development gets no quicker.</summary>
    public Temperature Quickest { get; init; } = Temperature.FromCelsius(31);

    /// <summary>Temperature above which the hazard rises.</summary>
    public Temperature LossesFrom { get; init; } = Temperature.FromCelsius(29);

    /// <summary>Lowest and highest salinity without a raised hazard.</summary>
    public (Salinity Lowest, Salinity Highest) Comfort { get; init; } =
        (Salinity.FromPractical(17), Salinity.FromPractical(36));

    /// <summary>Reference days of development in one day.</summary>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="food">How far the food goes: 1 enough, 0 none.</param>
    /// <exception cref="ArgumentOutOfRangeException">Food is not from 0 to 1.</exception>
    public double DevelopmentPerDay(Temperature temperature, double food = 1)
    {
        Finite.Within(food, 0, 1);
        var span = Reference.Celsius - Base.Celsius;
        var warm = Math.Clamp(temperature.Celsius, Base.Celsius, Quickest.Celsius) - Base.Celsius;
        return warm / span * (WithoutFood + ((1 - WithoutFood) * food));
    }

    /// <summary>How many times the usual hazard is met.</summary>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="salinity">Salinity of the water; none where it is not known, which counts as good.</param>
    public double HazardFactor(Temperature temperature, Salinity? salinity = null)
    {
        var warm = Math.Max(0, temperature.Celsius - LossesFrom.Celsius);
        var factor = Math.Exp(WarmPerKelvin * Math.Min(warm, 8));
        if (salinity is { } water)
        {
            var outside = Math.Max(
                Comfort.Lowest.Practical - water.Practical,
                water.Practical - Comfort.Highest.Practical
            );
            factor *= Math.Exp(SaltPerUnit * Math.Clamp(outside, 0, 20));
        }

        return factor;
    }

    // Assumption: hungry larvae still moult at first, and get on at a third of the pace.
    private const double WithoutFood = 0.35;

    // Assumption: every two kelvin double the hazard.
    private const double WarmPerKelvin = 0.35;

    // Assumption: every five units outside double the hazard twice.
    private const double SaltPerUnit = 0.28;
}
