using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// A glass hydrometer read as specific gravity. The glass swells with warmth, so at t
/// rho = reading rho_w(r) / (1 + gamma (t - calibrated)). The whole correction is about 0.33 in S for 10 degC.
/// Plastic swing-arm hydrometers do not obey this: they need a calibration at one point. Range as EOS-80.
/// </summary>
public sealed record GlassHydrometer
{
    /// <summary>
    /// Cubic expansion of soda-lime glass, 25e-6 per degC (ISO 649; value from memory). Petroleum practice in the US
    /// takes 23e-6 (from memory).
    /// </summary>
    public const double SodaLimeExpansionPerCelsius = 25e-6;

    /// <summary>A hydrometer by what stands on it.</summary>
    /// <param name="calibrated">Temperature at which the glass has its marked volume.</param>
    /// <param name="referenceWater">Temperature of the pure water that reads 1.000.</param>
    /// <param name="expansionPerCelsius">Cubic expansion of the glass, 0 to 0.001 per degC.</param>
    /// <exception cref="ArgumentOutOfRangeException">The expansion is outside 0 to 0.001.</exception>
    public GlassHydrometer(
        Temperature calibrated,
        Temperature referenceWater,
        double expansionPerCelsius = SodaLimeExpansionPerCelsius
    )
    {
        Calibrated = calibrated;
        ReferenceWater = referenceWater;
        ExpansionPerCelsius = Finite.Within(expansionPerCelsius, 0, 0.001);
    }

    /// <summary>Temperature at which the glass has its marked volume.</summary>
    public Temperature Calibrated { get; }

    /// <summary>Temperature of the pure water that reads 1.000.</summary>
    public Temperature ReferenceWater { get; }

    /// <summary>Cubic expansion of the glass, per degC.</summary>
    public double ExpansionPerCelsius { get; }

    /// <summary>Density of the water in which it reads so.</summary>
    /// <param name="reading">Specific gravity read, such as 1.026.</param>
    /// <param name="temperature">Temperature of the water when read.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public Computed<Density> DensityFrom(double reading, Temperature temperature) =>
        SeawaterDensity
            .PureWater(ReferenceWater)
            .Then(water =>
                Density.FromKilogramsPerCubicMetre(
                    Finite.Positive(reading) * water.KilogramsPerCubicMetre / Swelling(temperature)
                )
            );

    /// <summary>Salinity of the water in which it reads so.</summary>
    /// <param name="reading">Specific gravity read, such as 1.026.</param>
    /// <param name="temperature">Temperature of the water when read.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not positive, or no salinity gives this reading: the water is lighter than fresh water.
    /// </exception>
    public Computed<Salinity> SalinityFrom(double reading, Temperature temperature)
    {
        var density = DensityFrom(reading, temperature);
        var salinity = SeawaterDensity.SalinityAt(density.Value, temperature);
        return new(salinity.Value, salinity.WithinPublishedRange && density.WithinPublishedRange);
    }

    /// <summary>The trying form of <see cref="SalinityFrom"/>.</summary>
    /// <returns>Whether a salinity from 0 to 500 gives this reading.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public bool TrySalinityFrom(double reading, Temperature temperature, out Computed<Salinity> salinity)
    {
        var density = DensityFrom(reading, temperature);
        var found = SeawaterDensity.TrySalinityAt(density.Value, temperature, out var computed);
        salinity = computed with
        {
            WithinPublishedRange = computed.WithinPublishedRange && density.WithinPublishedRange,
        };
        return found;
    }

    /// <summary>What it reads in water of a salinity and temperature, specific gravity without unit.</summary>
    public Computed<double> ReadingIn(Salinity salinity, Temperature temperature)
    {
        var gravity = SpecificGravity.Of(salinity, new(temperature, ReferenceWater));
        return gravity.Then(value => value * Swelling(temperature));
    }

    /// <summary>
    /// The reading brought to the temperature of the glass: density at <see cref="Calibrated"/> over that of water
    /// at <see cref="ReferenceWater"/>, without unit.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not positive, or no salinity gives this reading.
    /// </exception>
    public Computed<double> Reduced(double reading, Temperature temperature)
    {
        var salinity = SalinityFrom(reading, temperature);
        var reduced = SpecificGravity.Of(salinity.Value, new(Calibrated, ReferenceWater));
        return new(reduced.Value, salinity.WithinPublishedRange && reduced.WithinPublishedRange);
    }

    private double Swelling(Temperature temperature) =>
        Finite.Positive(1 + (ExpansionPerCelsius * (temperature - Calibrated).Celsius));
}
