using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// What comes of pouring waters together: salt and water are kept, so salinity mixes by mass
/// (S = sum m S / sum m). A balance, valid wherever nothing is lost; no published range.
/// </summary>
public static class Mixing
{
    /// <summary>Salinity of several waters together.</summary>
    /// <param name="parts">Mass of water (salt included) and salinity of each part.</param>
    /// <exception cref="ArgumentException">No part has any mass.</exception>
    public static Salinity ByMass(params ReadOnlySpan<(Mass Mass, Salinity Salinity)> parts)
    {
        var grams = 0.0;
        var salt = 0.0;
        foreach (var (mass, salinity) in parts)
        {
            grams += mass.Grams;
            salt += mass.Grams * salinity.Practical;
        }

        return grams > 0
            ? Salinity.FromPractical(salt / grams)
            : throw new ArgumentException("At least one part needs a mass above zero.", nameof(parts));
    }

    /// <summary>
    /// Two waters together: mass, salinity and temperature. Heat is shared by mass, as if both held the same heat
    /// per kilogram; sea water holds about 4 to 5 % less than fresh, so equal parts 10 degC apart come out within
    /// 0.12 degC of this.
    /// </summary>
    /// <exception cref="ArgumentException">Neither part has any mass.</exception>
    public static WaterParcel OfTwo(WaterParcel first, WaterParcel second)
    {
        var salinity = ByMass((first.Mass, first.Salinity), (second.Mass, second.Salinity));
        var mass = first.Mass + second.Mass;
        var share = first.Mass / mass;
        return new(
            mass,
            salinity,
            Temperature.FromCelsius(
                (share * first.Temperature.Celsius) + ((1 - share) * second.Temperature.Celsius)
            )
        );
    }

    /// <summary>
    /// Fresh water to add to bring water down to a lower salinity, m (S0 / S1 - 1).
    /// </summary>
    /// <param name="mass">Mass of the water before, salt included.</param>
    /// <param name="from">Salinity before.</param>
    /// <param name="to">Salinity wanted, above 0 and not above <paramref name="from"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wanted salinity is zero or above the present one.</exception>
    public static Mass FreshWaterToLower(Mass mass, Salinity from, Salinity to) =>
        to > default(Salinity) && to <= from
            ? Mass.FromGrams(mass.Grams * ((from.Practical / to.Practical) - 1))
            : throw new ArgumentOutOfRangeException(
                nameof(to),
                to,
                "Fresh water lowers salinity to something above 0 and not above the present one."
            );
}
