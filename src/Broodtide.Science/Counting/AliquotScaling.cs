using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>
/// Aliquots scaled up by volume: total = V / (sum of v) times the sum of the counts (Elliott 1977, Some Methods for
/// the Statistical Analysis of Samples of Benthic Invertebrates). Limits here take larvae as evenly mixed and the
/// vessel as large; <see cref="AliquotTotal"/> takes neither for granted.
/// </summary>
public static class AliquotScaling
{
    /// <summary>The total, larvae.</summary>
    /// <param name="aliquots">The aliquots, one or more.</param>
    /// <param name="whole">Water in the vessel before they were taken.</param>
    /// <exception cref="ArgumentException">No aliquot.</exception>
    /// <exception cref="ArgumentOutOfRangeException">More water sampled than the vessel held.</exception>
    public static double Total(IReadOnlyList<AliquotSeen> aliquots, Volume whole) =>
        Scale(aliquots, whole) * aliquots.Sum(aliquot => (double)aliquot.Seen);

    /// <summary>Garwood's limits of the sum, scaled, larvae.</summary>
    /// <exception cref="ArgumentException">No aliquot.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// More water sampled than the vessel held, or a level of 0 or 1.
    /// </exception>
    public static Limits WellMixedLimits(
        IReadOnlyList<AliquotSeen> aliquots,
        Volume whole,
        Probability level
    ) => PoissonCount.Garwood(aliquots.Sum(aliquot => aliquot.Seen), level).Times(Scale(aliquots, whole));

    private static double Scale(IReadOnlyList<AliquotSeen> aliquots, Volume whole) =>
        whole.Litres / SampledLitres(aliquots, whole);

    /// <summary>Litres of all aliquots, checked against the vessel.</summary>
    internal static double SampledLitres(IReadOnlyList<AliquotSeen> aliquots, Volume whole)
    {
        if (aliquots.Count == 0)
        {
            throw new ArgumentException("There is no aliquot.", nameof(aliquots));
        }

        // Litres that were added up may exceed their sum by rounding alone.
        var sampled = aliquots.Sum(aliquot => aliquot.Volume.Litres);
        return Finite.Within(sampled, 0, whole.Litres * (1 + 1e-9), nameof(aliquots));
    }
}
