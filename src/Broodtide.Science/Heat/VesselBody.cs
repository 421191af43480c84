using Broodtide.Units;

namespace Broodtide.Science.Heat;

/// <summary>A vessel of water as far as its warmth goes: how much it holds and through what it loses heat.</summary>
public sealed record VesselBody
{
    // J/(m3 K): 4.18 kJ/(kg K) of fresh water; sea water is 1 % less by volume.
    private const double HeatPerCubicMetre = 4.15e6;

    /// <summary>From its water and its surfaces.</summary>
    /// <param name="water">Water, above zero.</param>
    /// <param name="openSquareMetres">Surface that meets the air, m2, above zero.</param>
    /// <param name="wallSquareMetres">Walls and floor that the water wets, m2, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public VesselBody(Volume water, double openSquareMetres, double wallSquareMetres)
    {
        Finite.Positive(water.Litres, nameof(water));
        Water = water;
        OpenSquareMetres = Finite.Positive(openSquareMetres);
        WallSquareMetres = Finite.Positive(wallSquareMetres);
    }

    /// <summary>Water in it.</summary>
    public Volume Water { get; }

    /// <summary>Surface that meets the air, m2.</summary>
    public double OpenSquareMetres { get; }

    /// <summary>Walls and floor that the water wets, m2.</summary>
    public double WallSquareMetres { get; }

    /// <summary>Heat that warms all of its water by a degree, J/K.</summary>
    public double JoulesPerKelvin => HeatPerCubicMetre * Water.Litres / 1000;

    /// <summary>
    /// Ice that cools all of it by a degree, g: it melts (334 kJ/kg at 0 degC) and its water warms to the vessel's.
    /// </summary>
    /// <param name="celsius">Temperature of the water, 0 to 60 degC.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public double IceGramsPerKelvin(double celsius) =>
        JoulesPerKelvin / (334 + (4.18 * Finite.Within(celsius, 0, 60)));

    /// <summary>A vessel of which only the water is known: as high as wide, open at the top.</summary>
    /// <param name="water">Water, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public static VesselBody OfVolume(Volume water)
    {
        var side = Math.Cbrt(Finite.Positive(water.Litres, nameof(water)) / 1000);
        return new(water, side * side, 5 * side * side);
    }
}
