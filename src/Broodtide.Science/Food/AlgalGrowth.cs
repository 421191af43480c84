using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>
/// How a culture of microalgae grows, from its counts. A logistic has neither a lag nor a crash (the six phases of a
/// batch culture: Barsanti and Gualtieri, Algae, table 6.19), so age and colour must be watched beside the density.
/// Rates are per day and natural (base e) unless a name says divisions.
/// </summary>
public static class AlgalGrowth
{
    /// <summary>Rate between two counts, ln(N1/N0)/t, 1/d; negative where the culture shrank.</summary>
    /// <param name="first">Density at the start, above zero.</param>
    /// <param name="last">Density at the end, above zero.</param>
    /// <param name="days">Days between, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double RatePerDay(CellDensity first, CellDensity last, double days) =>
        Math.Log(
            Finite.Positive(last.PerMillilitre, nameof(last))
                / Finite.Positive(first.PerMillilitre, nameof(first))
        ) / Finite.Positive(days);

    /// <summary>Days in which a culture doubles, ln 2 / rate.</summary>
    /// <param name="ratePerDay">1/d, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not above zero.</exception>
    public static double DoublingDays(double ratePerDay) => Math.Log(2) / Finite.Positive(ratePerDay);

    /// <summary>Divisions a day, rate / ln 2.</summary>
    /// <param name="ratePerDay">1/d.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not finite.</exception>
    public static double DivisionsPerDay(double ratePerDay) => Finite.Required(ratePerDay) / Math.Log(2);

    /// <summary>Density after a time by the logistic law, K / (1 + (K - N0)/N0 e^(-rt)).</summary>
    /// <param name="start">Density now, above zero.</param>
    /// <param name="capacity">Density that is approached, above zero.</param>
    /// <param name="ratePerDay">Rate while the culture is thin, 1/d, 0 or more.</param>
    /// <param name="days">Days from now, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static CellDensity Logistic(
        CellDensity start,
        CellDensity capacity,
        double ratePerDay,
        double days
    )
    {
        var first = Finite.Positive(start.PerMillilitre, nameof(start));
        var last = Finite.Positive(capacity.PerMillilitre, nameof(capacity));
        var fallen = Math.Exp(-Finite.NotNegative(ratePerDay) * Finite.NotNegative(days));
        return CellDensity.FromPerMillilitre(last / (1 + ((last - first) / first * fallen)));
    }

    /// <summary>Days until a density is reached by the logistic law, ln[(K - N0) N / (N0 (K - N))] / r.</summary>
    /// <param name="start">Density now, above zero and below the capacity.</param>
    /// <param name="capacity">Density that is approached.</param>
    /// <param name="reached">Density asked for, from the start to below the capacity.</param>
    /// <param name="ratePerDay">1/d, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits: it is never reached.</exception>
    public static double DaysToReach(
        CellDensity start,
        CellDensity capacity,
        CellDensity reached,
        double ratePerDay
    )
    {
        var last = Finite.Positive(capacity.PerMillilitre, nameof(capacity));
        var first = Finite.Positive(start.PerMillilitre, nameof(start));
        var wanted = Finite.Within(reached.PerMillilitre, first, Math.BitDecrement(last), nameof(reached));
        return Math.Log((last - first) * wanted / (first * (last - wanted))) / Finite.Positive(ratePerDay);
    }

    /// <summary>Best lasting yield of a logistic culture, r K / 4 at half the capacity, cells/mL/d.</summary>
    /// <param name="capacity">Density that is approached.</param>
    /// <param name="ratePerDay">1/d, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is negative.</exception>
    public static double BestYieldPerMillilitreDay(CellDensity capacity, double ratePerDay) =>
        Finite.NotNegative(ratePerDay) * capacity.PerMillilitre / 4;

    /// <summary>Rate that a culture needs to stand being harvested by a share again and again, -ln(1 - f)/t, 1/d.</summary>
    /// <param name="share">Share harvested each time, below one.</param>
    /// <param name="daysBetween">Days between harvests, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double RateForHarvest(Probability share, double daysBetween) =>
        -Math.Log(Finite.Positive(share.Opposite, nameof(share))) / Finite.Positive(daysBetween);

    /// <summary>Share that can be harvested each time so that the density comes back, 1 - e^(-rt).</summary>
    /// <param name="ratePerDay">1/d, 0 or more.</param>
    /// <param name="daysBetween">Days between harvests, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Probability ShareForHarvest(double ratePerDay, double daysBetween) =>
        Probability.FromFraction(
            1 - Math.Exp(-Finite.NotNegative(ratePerDay) * Finite.Positive(daysBetween))
        );

    /// <summary>
    /// Share of a culture at a density that can be taken again and again so that it comes back by the next time, by the
    /// logistic law: 1 - K E / (K - N (1 - E)) with E = e^(-rt). Far below the capacity it is
    /// <see cref="ShareForHarvest"/>; at the capacity nothing lasts.
    /// </summary>
    /// <param name="density">Density before each harvest, 0 or more.</param>
    /// <param name="capacity">Density that is approached, above zero.</param>
    /// <param name="ratePerDay">1/d, 0 or more.</param>
    /// <param name="daysBetween">Days between harvests, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Probability LastingShare(
        CellDensity density,
        CellDensity capacity,
        double ratePerDay,
        double daysBetween
    )
    {
        var most = Finite.Positive(capacity.PerMillilitre, nameof(capacity));
        var fallen = Math.Exp(-Finite.NotNegative(ratePerDay) * Finite.Positive(daysBetween));
        return density >= capacity
            ? Probability.FromFraction(0)
            : Probability.FromFraction(
                Math.Clamp(1 - (most * fallen / (most - (density.PerMillilitre * (1 - fallen)))), 0, 1)
            );
    }

    /// <summary>Volume of standing culture that a daily need of cells takes, need / (density x share a day).</summary>
    /// <param name="cellsPerDay">Cells needed a day, 0 or more.</param>
    /// <param name="density">Density of the culture at harvest, above zero.</param>
    /// <param name="sharePerDay">Share harvested a day, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Volume StandingCulture(double cellsPerDay, CellDensity density, Probability sharePerDay) =>
        Volume.FromMillilitres(
            Finite.NotNegative(cellsPerDay)
                / (
                    Finite.Positive(density.PerMillilitre, nameof(density))
                    * Finite.Positive(sharePerDay.Value, nameof(sharePerDay))
                )
        );

    /// <summary>
    /// Upper envelope of growth against temperature over many algae, 0.851 x 1.066^t, divisions a day (Eppley 1972
    /// as widely quoted; the coefficients are from memory).
    /// </summary>
    /// <param name="temperature">Water, degC; no published range is known here, so the answer is never marked as inside.</param>
    public static Computed<double> EppleyDivisionsPerDay(Temperature temperature) =>
        new(0.851 * Math.Pow(1.066, temperature.Celsius), WithinPublishedRange: false);

    /// <summary>
    /// Largest growth of <em>Skeletonema costatum</em>, 0.48 e^(0.126 t), divisions a day (Yoder 1979, J. Phycol. 15,
    /// abstract; 0 to 10 degC).
    /// </summary>
    /// <param name="temperature">Water.</param>
    public static Computed<double> SkeletonemaDivisionsPerDay(Temperature temperature) =>
        new(0.48 * Math.Exp(0.126 * temperature.Celsius), temperature.Celsius is >= 0 and <= 10);

    /// <summary>
    /// Initial slope of growth against light of <em>Skeletonema costatum</em>, 0.25 - 0.02 t + 0.001 t^2, divisions per
    /// langley (Yoder 1979, J. Phycol. 15, abstract, which names no range for it).
    /// </summary>
    /// <param name="temperature">Water.</param>
    public static Computed<double> SkeletonemaDivisionsPerLangley(Temperature temperature)
    {
        var t = temperature.Celsius;
        return new(0.25 - (0.02 * t) + (0.001 * t * t), WithinPublishedRange: false);
    }
}
