using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// What water changes leave of something dissolved or drifting: balances, no published range. The same holds for
/// algae, medium and drugs.
/// </summary>
public static class WaterChange
{
    /// <summary>After changing a share at once, and so again and again, C1 = C0 (1 - f) + f Cin.</summary>
    /// <param name="before">In the water before.</param>
    /// <param name="share">Share changed each time.</param>
    /// <param name="incoming">In the new water.</param>
    /// <param name="times">How often, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of changes.</exception>
    public static Concentration After(
        Concentration before,
        Probability share,
        Concentration incoming,
        int times = 1
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(times);
        return Mixed(before, incoming, Math.Pow(share.Opposite, times));
    }

    /// <summary>After new water has run through, always mixed, Cin + (C0 - Cin) e^(-Qt/V).</summary>
    /// <param name="before">In the water before.</param>
    /// <param name="volumes">How many volumes of the vessel have run through, 0 or more.</param>
    /// <param name="incoming">In the new water.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of volumes.</exception>
    public static Concentration AfterFlow(Concentration before, double volumes, Concentration incoming) =>
        Mixed(before, incoming, Math.Exp(-Finite.NotNegative(volumes)));

    /// <summary>Volumes of clean water that must run through until a share is left, ln(1/share).</summary>
    /// <param name="left">Share left, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing may be left: that takes for ever.</exception>
    public static double VolumesUntilLeft(Probability left) =>
        -Math.Log(Finite.Positive(left.Value, nameof(left)));

    /// <summary>
    /// Where something comes to that rises evenly and is thinned by one change a day with clean water: before the change
    /// P/f, after it P (1 - f)/f.
    /// </summary>
    /// <param name="risePerDay">Rise a day, 0 or more.</param>
    /// <param name="share">Share changed a day, above zero.</param>
    /// <returns>Just before and just after the daily change.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is changed: it rises for ever.</exception>
    public static (Concentration Before, Concentration After) Steady(
        Concentration risePerDay,
        Probability share
    )
    {
        var before = risePerDay.MilligramsPerLitre / Finite.Positive(share.Value, nameof(share));
        return (
            Concentration.FromMilligramsPerLitre(before),
            Concentration.FromMilligramsPerLitre(before * share.Opposite)
        );
    }

    private static Concentration Mixed(Concentration before, Concentration incoming, double left) =>
        Concentration.FromMilligramsPerLitre(
            incoming.MilligramsPerLitre + ((before.MilligramsPerLitre - incoming.MilligramsPerLitre) * left)
        );
}
