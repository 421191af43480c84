using Broodtide.Units;
using MathNet.Numerics.RootFinding;

namespace Broodtide.Science.Water;

/// <summary>
/// Density of sea water at one atmosphere, EOS-80, in kilograms per cubic metre.
/// Source: Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, eq. 13 and 14, pp. 17 to 18.
/// Range of the source: practical salinity 0 to 42, -2 to 40 degC on the scale IPTS-68. It agrees with TEOS-10
/// within 0.009 kg/m3 over 0 to 40 degC.
/// </summary>
public static class SeawaterDensity
{
    private const double HighestPublishedSalinity = 42;
    private const double LowestPublishedT68 = -2;
    private const double HighestPublishedT68 = 40;

    // No water a keeper meets is saltier; the search for a salinity ends here.
    private const double HighestSoughtSalinity = 500;

    /// <summary>Density of water of a salinity at a temperature, at the surface.</summary>
    /// <returns>Kilograms per cubic metre; published for S 0 to 42 and -2 to 40 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// So far outside the range that the formula gives no positive density.
    /// </exception>
    public static Computed<Density> Eos80(Salinity salinity, Temperature temperature) =>
        new(
            Density.FromKilogramsPerCubicMetre(Kilograms(salinity.Practical, temperature.CelsiusIpts68)),
            IsPublished(salinity.Practical, temperature.CelsiusIpts68)
        );

    /// <summary>Density of pure water at a temperature, at the surface.</summary>
    /// <returns>Kilograms per cubic metre; published for -2 to 40 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// So far outside the range that the formula gives no positive density.
    /// </exception>
    public static Computed<Density> PureWater(Temperature temperature) => Eos80(default, temperature);

    /// <summary>Salinity of the water that has a density at a temperature: the inverse of EOS-80.</summary>
    /// <param name="density">Density in kg/m3.</param>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="tolerance">Salinity within which the answer is exact.</param>
    /// <param name="mostSteps">Steps after which the search gives up.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No salinity from 0 to 500 gives the density, or the steps did not suffice.
    /// </exception>
    public static Computed<Salinity> SalinityAt(
        Density density,
        Temperature temperature,
        double tolerance = 1e-9,
        int mostSteps = 60
    ) =>
        TrySalinityAt(density, temperature, out var salinity, tolerance, mostSteps)
            ? salinity
            : throw new ArgumentOutOfRangeException(
                nameof(density),
                density,
                $"No salinity from 0 to {HighestSoughtSalinity} gives {density} at {temperature}."
            );

    /// <summary>The trying form of <see cref="SalinityAt"/>.</summary>
    /// <returns>Whether a salinity from 0 to 500 gives the density.</returns>
    public static bool TrySalinityAt(
        Density density,
        Temperature temperature,
        out Computed<Salinity> salinity,
        double tolerance = 1e-9,
        int mostSteps = 60
    )
    {
        var wanted = density.KilogramsPerCubicMetre;
        var t = temperature.CelsiusIpts68;
        salinity = default;
        // The density of sea water rises with S throughout, so a root exists only between the two ends.
        if (
            wanted < Kilograms(0, t)
            || wanted > Kilograms(HighestSoughtSalinity, t)
            || !RobustNewtonRaphson.TryFindRoot(
                s => Kilograms(s, t) - wanted,
                s => Slope(s, t),
                0,
                HighestSoughtSalinity,
                Finite.Positive(tolerance),
                mostSteps,
                20,
                out var s
            )
        )
        {
            return false;
        }

        s = Math.Clamp(s, 0, HighestSoughtSalinity);
        salinity = new(Salinity.FromPractical(s), IsPublished(s, t));
        return true;
    }

    /// <summary>Density under a pressure, kg/m3, unguarded.</summary>
    internal static double Kilograms(double s, double t68, double decibar) =>
        decibar == 0 ? Kilograms(s, t68) : Kilograms(s, t68) * Eos80Terms.PressureFactor(s, t68, decibar);

    private static double Kilograms(double s, double t68) =>
        Polynomial.At(t68, Eos80Terms.Pure)
        + (s * Polynomial.At(t68, Eos80Terms.Linear))
        + (s * Math.Sqrt(s) * Polynomial.At(t68, Eos80Terms.ThreeHalves))
        + (Eos80Terms.Square * s * s);

    // d rho / dS, about 0.76 kg/m3 at 20 to 25 degC.
    private static double Slope(double s, double t68) =>
        Polynomial.At(t68, Eos80Terms.Linear)
        + (1.5 * Math.Sqrt(s) * Polynomial.At(t68, Eos80Terms.ThreeHalves))
        + (2 * Eos80Terms.Square * s);

    // The edge of the range is taken with a hair of room, since t68 comes from t90 and S from a search.
    private static bool IsPublished(double s, double t68) =>
        PublishedRange.Holds(s, 0, HighestPublishedSalinity)
        && PublishedRange.Holds(t68, LowestPublishedT68, HighestPublishedT68);
}
