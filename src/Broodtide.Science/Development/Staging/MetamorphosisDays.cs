using Broodtide.Units;
using MathNet.Numerics.RootFinding;

namespace Broodtide.Science.Development.Staging;

/// <summary>Larvae that hatched on one day.</summary>
/// <param name="Day">The day, any finite number.</param>
/// <param name="Share">Their weight among all, not negative; weights need not sum to one.</param>
public readonly record struct CohortShare(double Day, double Share);

/// <summary>
/// Days of metamorphosis of larvae hatched on several days, if none dies (or, with
/// <see cref="LarvalPeriod.AmongSurvivors"/>, of those that live): a mixture of one larval period over the days of
/// hatch.
/// </summary>
public static class MetamorphosisDays
{
    /// <summary>Share that has metamorphosed by a day, 0 to 1.</summary>
    /// <exception cref="ArgumentException">No cohort with a weight.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or a weight negative.</exception>
    public static double Done(ReadOnlySpan<CohortShare> cohorts, LarvalPeriod period, double day)
    {
        Finite.Required(day);
        var all = 0.0;
        var done = 0.0;
        foreach (var cohort in cohorts)
        {
            all += Finite.NotNegative(cohort.Share, nameof(cohorts));
            done += cohort.Share * period.Done(day - Finite.Required(cohort.Day, nameof(cohorts)));
        }

        return all > 0
            ? done / all
            : throw new ArgumentException("At least one cohort needs a weight.", nameof(cohorts));
    }

    /// <summary>Day by which a share has metamorphosed.</summary>
    /// <param name="cohorts">One or more cohorts.</param>
    /// <param name="period">The larval period.</param>
    /// <param name="share">Above 0 and below 1.</param>
    /// <exception cref="ArgumentException">No cohort with a weight.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A share of 0 or 1, or a number not finite.</exception>
    public static double When(ReadOnlySpan<CohortShare> cohorts, LarvalPeriod period, Probability share) =>
        When(
            cohorts,
            period,
            Finite.Within(share.Value, double.Epsilon, Math.BitDecrement(1), nameof(share))
        );

    /// <summary>
    /// Day by which, with a probability, the first of a known number has metamorphosed: the whole is 1 - (1 - F)^n.
    /// It hangs on the far tail of the larval period, which no data tell well.
    /// </summary>
    /// <param name="cohorts">One or more cohorts.</param>
    /// <param name="period">The larval period.</param>
    /// <param name="larvae">How many larvae, above zero.</param>
    /// <param name="probability">Above 0 and below 1.</param>
    /// <exception cref="ArgumentException">No cohort with a weight.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public static double First(
        ReadOnlySpan<CohortShare> cohorts,
        LarvalPeriod period,
        int larvae,
        Probability probability
    ) =>
        When(
            cohorts,
            period,
            -MathNet.Numerics.SpecialFunctions.Expm1(
                MathNet.Numerics.SpecialFunctions.Log1p(-Inside(probability)) / Finite.Positive(larvae)
            )
        );

    /// <summary>
    /// The same where the number itself is Poisson: 1 - exp(-n F). None where, with this probability, there may be
    /// no larva at all.
    /// </summary>
    /// <inheritdoc cref="First"/>
    public static double? FirstOfPoisson(
        ReadOnlySpan<CohortShare> cohorts,
        LarvalPeriod period,
        double larvae,
        Probability probability
    )
    {
        var share = -MathNet.Numerics.SpecialFunctions.Log1p(-Inside(probability)) / Finite.Positive(larvae);
        return share < 1 ? When(cohorts, period, share) : null;
    }

    private static double Inside(Probability probability) =>
        Finite.Within(probability.Value, double.Epsilon, Math.BitDecrement(1), nameof(probability));

    private static double When(ReadOnlySpan<CohortShare> cohorts, LarvalPeriod period, double share)
    {
        var kept = cohorts.ToArray();
        Done(kept, period, 0);
        var earliest = kept.Min(cohort => cohort.Day);
        var latest = kept.Max(cohort => cohort.Day) + period.MeanDays;
        while (Done(kept, period, latest) < share)
        {
            latest += latest - earliest;
        }

        return Brent.FindRoot(day => Done(kept, period, day) - share, earliest, latest, 1e-12, 1000);
    }
}
