using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>
/// What larvae eat, by the water they clear of cells (Gauld 1951; Frost 1972, Limnol. Oceanogr. 17:805). Clearance of
/// atyid zoeae has not been measured; what is used for them elsewhere is an assumption.
/// </summary>
public static class Grazing
{
    /// <summary>
    /// Water a larva clears, V/n ln(control/grazed)/t, mL a larva and hour: vessels with and without larvae, the same
    /// at the start. Negative where more was left with larvae than without.
    /// </summary>
    /// <param name="vessel">Water in the vessel with larvae.</param>
    /// <param name="larvae">Larvae in it, 1 or more.</param>
    /// <param name="hours">Hours, above zero.</param>
    /// <param name="control">Density at the end without larvae, above zero.</param>
    /// <param name="grazed">Density at the end with larvae, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double ClearedMillilitresPerHour(
        Volume vessel,
        int larvae,
        double hours,
        CellDensity control,
        CellDensity grazed
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(larvae, 1);
        var grazing =
            Math.Log(
                Finite.Positive(control.PerMillilitre, nameof(control))
                    / Finite.Positive(grazed.PerMillilitre, nameof(grazed))
            ) / Finite.Positive(hours);
        return vessel.Millilitres * grazing / larvae;
    }

    /// <summary>Mean density while it rises or falls exponentially, (Ct - C0) / ln(Ct/C0).</summary>
    /// <param name="first">At the start, above zero.</param>
    /// <param name="last">At the end, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">One is zero.</exception>
    public static CellDensity Mean(CellDensity first, CellDensity last)
    {
        var start = Finite.Positive(first.PerMillilitre, nameof(first));
        var end = Finite.Positive(last.PerMillilitre, nameof(last));
        var change = (end - start) / start;
        // Close to each other the quotient is nothing over nothing; the mean of both is right to the square of the change.
        return CellDensity.FromPerMillilitre(
            Math.Abs(change) < 1e-6 ? 0.5 * (start + end) : (end - start) / Math.Log(end / start)
        );
    }

    /// <summary>Water a larva clears by what it eats of what is there, mL a larva and day.</summary>
    /// <param name="eatenNanogramsPerDay">Eaten, ng a larva and day, 0 or more.</param>
    /// <param name="foodNanogramsPerMillilitre">Of the same in the water, ng/mL, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double ClearedMillilitresPerDay(
        double eatenNanogramsPerDay,
        double foodNanogramsPerMillilitre
    ) => Finite.NotNegative(eatenNanogramsPerDay) / Finite.Positive(foodNanogramsPerMillilitre);

    /// <summary>Share of the water, and of its cells, that larvae clear in a day, 1 - e^(-nF).</summary>
    /// <param name="larvaePerLitre">1/L, 0 or more.</param>
    /// <param name="millilitresPerLarvaDay">mL a larva and day, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Probability LostPerDay(double larvaePerLitre, double millilitresPerLarvaDay) =>
        Probability.FromFraction(
            1
                - Math.Exp(
                    -Finite.NotNegative(larvaePerLitre) / 1000 * Finite.NotNegative(millilitresPerLarvaDay)
                )
        );
}
