using Broodtide.Science.Waste;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What is the same in every member: ratios of the elements, and the limits of oxygen and pH on life.</summary>
public sealed record VesselChemistry
{
    private double _halfOxygen = 0.5;
    private double _highPh = 9.8;
    private double _egested = 0.3;
    private double _airless = 0.3;
    private double _dust = 0.5;
    private double _halfAlkalinity = 0.3;
    private double _clearWater = 0.2;
    private double _larvalBreath = 5;

    /// <summary>Oxygen at which breathing and decay go half as fast, mg/L, 0 or more (order of published figures, from memory).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double HalfOxygen
    {
        get => _halfOxygen;
        init => _halfOxygen = Finite.NotNegative(value);
    }

    /// <summary>pH at which algae grow half as fast for want of carbon dioxide, 8 to 14; 14 switches it off (cultures without added gas rise to 9.5 to 10, practice).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 8 to 14.</exception>
    public double HighPh
    {
        get => _highPh;
        init => _highPh = Finite.Within(value, 8, 14);
    }

    /// <summary>Share of what larvae eat that comes back as waste, 0 to 1 (from memory: crustacean larvae take up 60 to 80 %).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public double EgestedShare
    {
        get => _egested;
        init => _egested = Finite.Within(value, 0, 1);
    }

    /// <summary>How well larvae clear the water of dust and dead matter, for algae as 1; 0 to 1 (this project's estimate).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public double DustForCells
    {
        get => _dust;
        init => _dust = Finite.Within(value, 0, 1);
    }

    /// <summary>Share of the decay to ammonia that goes on without oxygen, 0 to 1 (this project's estimate).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public double AirlessDecay
    {
        get => _airless;
        init => _airless = Finite.Within(value, 0, 1);
    }

    /// <summary>Alkalinity at which nitrification goes half as fast, meq/L, 0 or more (this project's estimate).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double HalfAlkalinity
    {
        get => _halfAlkalinity;
        init => _halfAlkalinity = Finite.NotNegative(value);
    }

    /// <summary>Dimming by water without algae, 1/m, 0 or more (from memory).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double ClearWaterPerMetre
    {
        get => _clearWater;
        init => _clearWater = Finite.NotNegative(value);
    }

    /// <summary>Oxygen that larvae breathe, ug a mg of dry mass and hour, 0 or more (order of crustacean zoeae, from memory).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double LarvalBreathMicrograms
    {
        get => _larvalBreath;
        init => _larvalBreath = Finite.NotNegative(value);
    }

    /// <summary>The usual.</summary>
    public static VesselChemistry Usual { get; } = new();

    // Plankton C106 H263 O110 N16 P: 106 O2 for 16 N built from ammonia, 138 from nitrate (Redfield, Ketchum and Richards 1963).
    internal const double OxygenPerAlgalNitrogen = 106 * OxygenMolar / (16 * NitrogenMolar);
    internal const double OxygenPerNitrateNitrogen = 2 * OxygenMolar / NitrogenMolar;

    // Of the oxygen of both steps three quarters go into the first: 1.5 and 0.5 mol of 2.
    internal const double OxygenPerAmmoniaNitrogen =
        0.75 * Nitrification.OxygenMolesPerMole * OxygenMolar / NitrogenMolar;
    internal const double OxygenPerNitriteNitrogen =
        0.25 * Nitrification.OxygenMolesPerMole * OxygenMolar / NitrogenMolar;

    internal const double OxygenMolar = 31.9988;
    internal const double NitrogenMolar = 14.007;
}
