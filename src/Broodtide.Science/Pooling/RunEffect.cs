using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Pooling;

/// <summary>What one run says about a number, and how sure it is: an estimate and the variance of its error.</summary>
public readonly record struct RunEffect
{
    /// <summary>An estimate with its error.</summary>
    /// <param name="estimate">The estimate, on a scale on which its error is near to normal.</param>
    /// <param name="variance">Variance of the error, above 0, in the square of that scale.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the variance not above 0.</exception>
    public RunEffect(double estimate, double variance)
    {
        Estimate = Finite.Required(estimate);
        Variance = Finite.Positive(variance);
    }

    /// <summary>The estimate.</summary>
    public double Estimate { get; }

    /// <summary>Variance of its error.</summary>
    public double Variance { get; }

    /// <summary>
    /// What the evidence of a run says by itself: the belief after it with the belief before it taken away again, both
    /// taken as normal curves (precisions subtract). None where the evidence narrowed the belief by less than
    /// <see cref="LeastNarrowed"/> of its variance: what is left then is the grain of the calculation.
    /// </summary>
    /// <param name="before">What was believed before the run.</param>
    /// <param name="after">What is believed after it.</param>
    public static RunEffect? Beyond(NormalBelief before, NormalBelief after)
    {
        var (old, now) = (
            1 / (before.StandardDeviation * before.StandardDeviation),
            1 / (after.StandardDeviation * after.StandardDeviation)
        );
        var own = now - old;
        return own <= LeastNarrowed * now
            ? null
            : new RunEffect(((after.Mean * now) - (before.Mean * old)) / own, 1 / own);
    }

    /// <summary>Share of the variance that evidence has to take away to count as saying something. A choice.</summary>
    public const double LeastNarrowed = 0.1;

    /// <summary>The logarithm of the odds of a share; none where all or none responded, which no odds describe.</summary>
    public static RunEffect? LogOdds(Tally tally) =>
        tally.Happened == 0 || tally.Happened == tally.Trials
            ? null
            : new RunEffect(
                Math.Log((double)tally.Happened / (tally.Trials - tally.Happened)),
                (1.0 / tally.Happened) + (1.0 / (tally.Trials - tally.Happened))
            );

    /// <summary>The logarithm of the ratio of two shares; none where one of them is 0.</summary>
    public static RunEffect? LogRiskRatio(Tally treated, Tally control) =>
        treated.Happened == 0 || control.Happened == 0
            ? null
            : new RunEffect(
                Math.Log(treated.Share / control.Share),
                (1.0 / treated.Happened)
                    - (1.0 / treated.Trials)
                    + (1.0 / control.Happened)
                    - (1.0 / control.Trials)
            );

    /// <summary>The logarithm of the ratio of two odds; none where one of four numbers is 0.</summary>
    public static RunEffect? LogOddsRatio(Tally treated, Tally control) =>
        LogOdds(treated) is { } one && LogOdds(control) is { } other
            ? new RunEffect(one.Estimate - other.Estimate, one.Variance + other.Variance)
            : null;
}
