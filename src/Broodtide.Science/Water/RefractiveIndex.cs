using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Refractive index of sea water against air.
/// Source: Quan and Fry 1995, Appl. Opt. 34:3477. Range: S 0 to 35, 0 to 30 degC, 400 to 700 nm. Against the 128
/// values of Austin and Halikas 1976 the largest miss is 5.8e-5; 1e-4 is 0.55 in S.
/// </summary>
public static class RefractiveIndex
{
    /// <summary>Wavelength of the sodium D line, 589.3 nm, for which hand refractometers are made.</summary>
    public const double SodiumLineNanometres = 589.3;

    private const double N0 = 1.31405;
    private const double N1 = 1.779e-4;
    private const double N2 = -1.05e-6;
    private const double N3 = 1.6e-8;
    private const double N4 = -2.02e-6;
    private const double N5 = 15.868;
    private const double N6 = 0.01155;
    private const double N7 = -0.00423;
    private const double N8 = -4382;
    private const double N9 = 1.1455e6;

    /// <summary>Index of water of a salinity and temperature.</summary>
    /// <param name="salinity">Practical salinity, published 0 to 35.</param>
    /// <param name="temperature">Published 0 to 30 degC.</param>
    /// <param name="wavelengthNanometres">Published 400 to 700 nm.</param>
    /// <returns>The index against air, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is not finite or not positive.</exception>
    public static Computed<double> Of(
        Salinity salinity,
        Temperature temperature,
        double wavelengthNanometres = SodiumLineNanometres
    )
    {
        var wavelength = Finite.Positive(wavelengthNanometres);
        var index =
            OfPureWater(temperature.Celsius, wavelength)
            + (SlopePerSalinity(temperature.Celsius, wavelength) * salinity.Practical);
        return new(Finite.Required(index), IsPublished(salinity.Practical, temperature, wavelength));
    }

    /// <summary>Salinity of water of an index.</summary>
    /// <param name="index">Index against air.</param>
    /// <param name="temperature">Published 0 to 30 degC.</param>
    /// <param name="wavelengthNanometres">Published 400 to 700 nm.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The index is below that of pure water, or an argument is not finite.
    /// </exception>
    public static Computed<Salinity> SalinityAt(
        double index,
        Temperature temperature,
        double wavelengthNanometres = SodiumLineNanometres
    )
    {
        var wavelength = Finite.Positive(wavelengthNanometres);
        var s =
            (Finite.Required(index) - OfPureWater(temperature.Celsius, wavelength))
            / SlopePerSalinity(temperature.Celsius, wavelength);
        // Rounding of an index of pure water must not turn it into a refusal.
        s = s is < 0 and > -1e-9 ? 0 : s;
        return new(Salinity.FromPractical(s), IsPublished(s, temperature, wavelength));
    }

    /// <summary>Index of pure water; temperature in degC, wavelength in nm.</summary>
    internal static double OfPureWater(double t, double wavelength) =>
        N0
        + (N4 * t * t)
        + ((N5 + (N7 * t)) / wavelength)
        + (N8 / (wavelength * wavelength))
        + (N9 / (wavelength * wavelength * wavelength));

    /// <summary>Rise of the index for each unit of S; temperature in degC, wavelength in nm.</summary>
    internal static double SlopePerSalinity(double t, double wavelength) =>
        N1 + (N2 * t) + (N3 * t * t) + (N6 / wavelength);

    private static bool IsPublished(double s, Temperature temperature, double wavelength) =>
        PublishedRange.Holds(s, 0, 35)
        && PublishedRange.Holds(temperature.Celsius, 0, 30)
        && PublishedRange.Holds(wavelength, 400, 700);
}
