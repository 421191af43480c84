using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>How many larvae a vessel is given.</summary>
public static class Stocking
{
    /// <summary>Settled post-larvae a litre. Crowding lowers survival: what holds at one density does not at another.</summary>
    /// <param name="larvaePerLitre">1/L at the start, 0 or more.</param>
    /// <param name="survival">Share that settles.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number.</exception>
    public static double SettledPerLitre(double larvaePerLitre, Probability survival) =>
        Finite.NotNegative(larvaePerLitre) * survival.Value;
}
