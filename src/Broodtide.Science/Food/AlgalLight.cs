using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>
/// Light in green water and what algae make of it. Light is photosynthetically active photon flux, umol/(m2 s); lux
/// cannot be turned into it without knowing the lamp, so nothing here does.
/// </summary>
public static class AlgalLight
{
    /// <summary>Share of the best growth at a light, I/Io e^(1 - I/Io), from 0 to 1 (Steele 1962).</summary>
    /// <param name="light">umol/(m2 s), 0 or more.</param>
    /// <param name="best">Light of best growth, umol/(m2 s), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double Steele(double light, double best)
    {
        var ratio = Finite.NotNegative(light) / Finite.Positive(best);
        return ratio * Math.Exp(1 - ratio);
    }

    /// <summary>Mean of <see cref="Steele"/> over a depth under an attenuation; in clear or shallow water that at the surface.</summary>
    /// <param name="surface">Light at the surface, umol/(m2 s), 0 or more.</param>
    /// <param name="best">Light of best growth, umol/(m2 s), above zero.</param>
    /// <param name="attenuationPerMetre">1/m, 0 or more.</param>
    /// <param name="depthMetres">m, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double SteeleOverDepth(
        double surface,
        double best,
        double attenuationPerMetre,
        double depthMetres
    )
    {
        var thickness = Finite.NotNegative(attenuationPerMetre) * Finite.NotNegative(depthMetres);
        if (thickness < Thin)
        {
            return Steele(surface, best);
        }

        var ratio = Finite.NotNegative(surface) / Finite.Positive(best);
        return Math.E / thickness * (Math.Exp(-ratio * Math.Exp(-thickness)) - Math.Exp(-ratio));
    }

    /// <summary>
    /// Photosynthesis at a light with inhibition, Ps (1 - e^(-aI/Ps)) e^(-bI/Ps), in the units of Ps (Platt, Gallegos and
    /// Harrison 1980, J. Mar. Res. 38:687).
    /// </summary>
    /// <param name="scale">Ps: what would be reached without inhibition, above zero.</param>
    /// <param name="slope">alpha: rise in dim light per umol/(m2 s), above zero.</param>
    /// <param name="inhibition">beta: fall in strong light per umol/(m2 s), 0 or more.</param>
    /// <param name="light">umol/(m2 s), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double Platt(double scale, double slope, double inhibition, double light)
    {
        var perScale = Finite.NotNegative(light) / Finite.Positive(scale);
        return scale
            * (1 - Math.Exp(-Finite.Positive(slope) * perScale))
            * Math.Exp(-Finite.NotNegative(inhibition) * perScale);
    }

    /// <summary>The most of <see cref="Platt"/>, Ps a/(a+b) (b/(a+b))^(b/a); Ps without inhibition.</summary>
    /// <param name="scale">Ps, above zero.</param>
    /// <param name="slope">alpha, above zero.</param>
    /// <param name="inhibition">beta, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double PlattMost(double scale, double slope, double inhibition)
    {
        var both = Finite.Positive(slope) + Finite.NotNegative(inhibition);
        return Finite.Positive(scale) * slope / both * Math.Pow(inhibition / both, inhibition / slope);
    }

    /// <summary>Light at which <see cref="Platt"/> is most, (Ps/a) ln((a+b)/b), umol/(m2 s).</summary>
    /// <param name="scale">Ps, above zero.</param>
    /// <param name="slope">alpha, above zero.</param>
    /// <param name="inhibition">beta, above zero: without it more light is always better.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double PlattBest(double scale, double slope, double inhibition) =>
        Finite.Positive(scale)
        / Finite.Positive(slope)
        * Math.Log((slope + inhibition) / Finite.Positive(inhibition));

    /// <summary>Mean light over a depth, I (1 - e^(-kz)) / (kz), umol/(m2 s) (law of Beer and Lambert).</summary>
    /// <param name="surface">Light at the surface, umol/(m2 s), 0 or more.</param>
    /// <param name="attenuationPerMetre">1/m, 0 or more.</param>
    /// <param name="depthMetres">m, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double MeanOverDepth(double surface, double attenuationPerMetre, double depthMetres)
    {
        var thickness = Finite.NotNegative(attenuationPerMetre) * Finite.NotNegative(depthMetres);
        return thickness < Thin
            ? Finite.NotNegative(surface)
            : Finite.NotNegative(surface) * (1 - Math.Exp(-thickness)) / thickness;
    }

    /// <summary>Attenuation of green water, kw + kc Chl, 1/m.</summary>
    /// <param name="chlorophyllMilligramsPerCubicMetre">Chlorophyll a, mg/m3, 0 or more.</param>
    /// <param name="waterPerMetre">Of the water alone, 1/m, 0 or more.</param>
    /// <param name="squareMetresPerMilligram">Of chlorophyll, m2/mg; 0.01 to 0.03 is usual (from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double AttenuationPerMetre(
        double chlorophyllMilligramsPerCubicMetre,
        double waterPerMetre,
        double squareMetresPerMilligram
    ) =>
        Finite.NotNegative(waterPerMetre)
        + (
            Finite.NotNegative(squareMetresPerMilligram)
            * Finite.NotNegative(chlorophyllMilligramsPerCubicMetre)
        );

    // Below this the difference of two exponentials has lost its digits, and the mean is that of the surface to 1e-8.
    private const double Thin = 1e-8;
}
