using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Development.Females;

/// <summary>One of several females whose larvae come into one water.</summary>
/// <param name="HatchDayAt">The day of her first larvae below which it lies with a probability, 0 to 1.</param>
/// <param name="LarvaeMedian">Middle of the larvae her clutch gives, above 0.</param>
/// <param name="LarvaeLogSd">Standard deviation of the logarithm of that number, 0 or more.</param>
public sealed record FemaleInBox(Func<double, double> HatchDayAt, double LarvaeMedian, double LarvaeLogSd);

/// <summary>Larvae gathered from the shared water.</summary>
/// <param name="FromDay">The gathering before it, or when the first female came in.</param>
/// <param name="ToDay">When.</param>
/// <param name="Found">Whether there were larvae.</param>
public readonly record struct BoxGathering(double FromDay, double ToDay, bool Found);

/// <summary>Whose larvae a gathering holds.</summary>
/// <param name="Shares">Share of each female, 0 to 1: 5, 50 and 95 % points.</param>
/// <param name="Expected">The same as one number each; they sum to one.</param>
/// <param name="Some">Chance that at least one larva in a hundred is hers.</param>
public sealed record BoxShares(
    IReadOnlyList<Interval> Shares,
    IReadOnlyList<double> Expected,
    IReadOnlyList<Probability> Some
);

/// <summary>
/// Whose larvae are in a box that several females share: nobody can see it, so it is told as a mixture. Hatch days and
/// clutches are drawn evenly over what is believed of each; draws in which a gathering that found larvae would have found
/// none weigh next to nothing, and so do draws in which larvae came where none were found.
/// </summary>
public static class SharedBox
{
    /// <summary>Most females that are told apart.</summary>
    public const int MostFemales = SobolPoints.MostDimensions / 2;

    private const int Draws = 2048;

    /// <summary>
    /// Of the larvae still to come, the share that comes in a day once a clutch hatches: nine in ten in the first night
    /// and a tail after it. That most come in one night is practice; the figure is an assumption.
    /// </summary>
    public const double HatchingPerDay = 0.9;

    // A look that is wrong: larvae overlooked, or some that swam in with the water. An assumption.
    private const double Mistaken = 0.01;
    private const double LeastLarvae = 0.5;

    // One larva in a hundred is nothing to speak of.
    private const double WorthSpeakingOf = 0.01;

    /// <summary>The shares, one answer for each gathering.</summary>
    /// <param name="females">The females, 2 to 8.</param>
    /// <param name="gatherings">The gatherings, in the order of time.</param>
    /// <exception cref="ArgumentException">Fewer than two females or too many.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static IReadOnlyList<BoxShares> Of(
        IReadOnlyList<FemaleInBox> females,
        IReadOnlyList<BoxGathering> gatherings
    )
    {
        ArgumentNullException.ThrowIfNull(females);
        ArgumentNullException.ThrowIfNull(gatherings);
        if (females.Count is < 2 or > MostFemales)
        {
            throw new ArgumentException($"Two to {MostFemales} females.", nameof(females));
        }

        foreach (var gathering in gatherings)
        {
            Finite.Required(gathering.FromDay);
            Finite.Within(gathering.ToDay, gathering.FromDay, double.MaxValue);
        }

        var weights = new double[Draws];
        // By gathering, by female, by draw.
        var shares = gatherings.Select(_ => females.Select(_ => new double[Draws]).ToArray()).ToArray();
        var point = new double[2 * females.Count];
        var came = new double[females.Count];
        for (var draw = 0; draw < Draws; draw++)
        {
            SobolPoints.Even(draw + 1, point);
            weights[draw] = 1;
            for (var at = 0; at < gatherings.Count; at++)
            {
                var all = 0.0;
                for (var who = 0; who < females.Count; who++)
                {
                    came[who] = Came(females[who], point[2 * who], point[(2 * who) + 1], gatherings[at]);
                    all += came[who];
                }

                weights[draw] *= all >= LeastLarvae == gatherings[at].Found ? 1 : Mistaken;
                for (var who = 0; who < females.Count; who++)
                {
                    shares[at][who][draw] = all > 0 ? came[who] / all : 1.0 / females.Count;
                }
            }
        }

        return [.. shares.Select(gathering => Told(gathering, weights))];
    }

    private static double Came(FemaleInBox female, double day, double larvae, BoxGathering gathering)
    {
        var hatched = Finite.Required(female.HatchDayAt(day));
        var clutch =
            Finite.Positive(female.LarvaeMedian)
            * Math.Exp(Finite.NotNegative(female.LarvaeLogSd) * StandardNormal(larvae));
        return clutch * (OutBy(gathering.ToDay - hatched) - OutBy(gathering.FromDay - hatched));
    }

    private static double OutBy(double days) => days <= 0 ? 0 : 1 - Math.Pow(1 - HatchingPerDay, days + 1);

    private static double StandardNormal(double probability) =>
        MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, probability);

    private static BoxShares Told(double[][] shares, double[] weights) =>
        new(
            [.. shares.Select(share => Points(share, weights))],
            [.. shares.Select(share => Mean(share, weights, value => value))],
            [
                .. shares.Select(share =>
                    Probability.FromFraction(
                        Math.Clamp(Mean(share, weights, value => value >= WorthSpeakingOf ? 1 : 0), 0, 1)
                    )
                ),
            ]
        );

    private static double Mean(double[] values, double[] weights, Func<double, double> of)
    {
        var (sum, all) = (0.0, 0.0);
        for (var i = 0; i < values.Length; i++)
        {
            sum += weights[i] * of(values[i]);
            all += weights[i];
        }

        return sum / all;
    }

    private static Interval Points(double[] values, double[] weights)
    {
        var sorted = (double[])values.Clone();
        var with = (double[])weights.Clone();
        Array.Sort(sorted, with);
        var all = with.Sum();
        return Interval.FromPoints(At(0.05), At(0.5), At(0.95));

        double At(double share)
        {
            var sum = 0.0;
            for (var i = 0; i < sorted.Length; i++)
            {
                sum += with[i];
                if (sum >= share * all)
                {
                    return sorted[i];
                }
            }

            return sorted[^1];
        }
    }
}
