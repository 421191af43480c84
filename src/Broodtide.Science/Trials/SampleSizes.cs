using Broodtide.Units;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using MathNet.Numerics.RootFinding;

namespace Broodtide.Science.Trials;

/// <summary>What a trial shall find: two shares that differ, at what risk of a false find, with what chance of a true one.</summary>
/// <param name="First">The share without the treatment, above 0 and below 1.</param>
/// <param name="Second">The share with it, another one.</param>
/// <param name="FalseFind">Chance of finding a difference where there is none, two-sided.</param>
/// <param name="Power">Chance of finding this difference.</param>
public sealed record WantedFind(
    Probability First,
    Probability Second,
    Probability FalseFind,
    Probability Power
)
{
    internal double Difference => First.Value - Second.Value;

    internal double Quantiles =>
        Normal.InvCDF(0, 1, 1 - Statistics.Limits.Tail(Probability.FromFraction(FalseFind.Opposite)))
        + Normal.InvCDF(0, 1, Power.Value);

    internal double Variances => (First.Value * First.Opposite) + (Second.Value * Second.Opposite);

    internal void MustDiffer()
    {
        if (Difference == 0)
        {
            throw new InvalidOperationException("Two shares that are the same cannot be told apart.");
        }
    }
}

/// <summary>
/// How many larvae and vessels a comparison needs, by formula and not rounded up. They are for a first idea; the chance of
/// finding something with the real analysis is simulated in <see cref="TrialPower"/>.
/// </summary>
public static class SampleSizes
{
    /// <summary>Larvae in each arm if every larva were on its own, each arm with its own variance.</summary>
    /// <exception cref="InvalidOperationException">The shares are the same.</exception>
    public static double LarvaePerArm(WantedFind wanted)
    {
        wanted.MustDiffer();
        return Math.Pow(wanted.Quantiles / wanted.Difference, 2) * wanted.Variances;
    }

    /// <summary>The same with one common variance under no difference (Fleiss 1981, Statistical Methods for Rates and Proportions).</summary>
    /// <exception cref="InvalidOperationException">The shares are the same.</exception>
    public static double LarvaePerArmPooled(WantedFind wanted)
    {
        wanted.MustDiffer();
        var mean = (wanted.First.Value + wanted.Second.Value) / 2;
        var alpha = Normal.InvCDF(0, 1, 1 - (wanted.FalseFind.Value / 2));
        var beta = Normal.InvCDF(0, 1, wanted.Power.Value);
        var sum = (alpha * Math.Sqrt(2 * mean * (1 - mean))) + (beta * Math.Sqrt(wanted.Variances));
        return Math.Pow(sum / wanted.Difference, 2);
    }

    /// <summary>By how much larvae that share a vessel raise the variance: 1 + (m - 1) rho (Donner and Klar 2000).</summary>
    /// <param name="larvae">Larvae in a vessel, 1 or more.</param>
    /// <param name="correlation">Correlation between larvae of one vessel, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double DesignEffect(double larvae, Probability correlation) =>
        1 + ((Finite.Within(larvae, 1, 1e9) - 1) * correlation.Value);

    /// <summary>Vessels in each arm.</summary>
    /// <param name="wanted">What shall be found.</param>
    /// <param name="larvae">Larvae in a vessel, 1 or more.</param>
    /// <param name="correlation">Correlation between larvae of one vessel, 0 to 1.</param>
    /// <exception cref="InvalidOperationException">The shares are the same.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double VesselsPerArm(WantedFind wanted, double larvae, Probability correlation) =>
        LarvaePerArm(wanted) * DesignEffect(larvae, correlation) / larvae;

    /// <summary>Vessels in each arm however many larvae each holds: more larvae cannot take the place of vessels.</summary>
    /// <exception cref="InvalidOperationException">The shares are the same.</exception>
    public static double FewestVesselsPerArm(WantedFind wanted, Probability correlation) =>
        LarvaePerArm(wanted) * correlation.Value;

    /// <summary>Vessels in each arm where the shares of vessels vary by a coefficient (Hayes and Bennett 1999, Int. J. Epidemiol. 28:319).</summary>
    /// <param name="wanted">What shall be found.</param>
    /// <param name="larvae">Larvae in a vessel, 1 or more.</param>
    /// <param name="coefficientOfVariation">Standard deviation of the true shares of vessels over their mean, 0 or more.</param>
    /// <exception cref="InvalidOperationException">The shares are the same.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double VesselsByVariation(WantedFind wanted, double larvae, double coefficientOfVariation)
    {
        wanted.MustDiffer();
        var k = Finite.NotNegative(coefficientOfVariation);
        var (first, second) = (wanted.First.Value, wanted.Second.Value);
        var variance =
            (wanted.Variances / Finite.Within(larvae, 1, 1e9))
            + (k * k * ((first * first) + (second * second)));
        return 1 + (Math.Pow(wanted.Quantiles / wanted.Difference, 2) * variance);
    }

    /// <summary>Vessels in each arm, 2 at least, for a difference of means by Student's t, from the noncentral t distribution.</summary>
    /// <param name="difference">Difference of the means, not 0.</param>
    /// <param name="deviation">Standard deviation between vessels of one arm, above 0, in the same unit.</param>
    /// <param name="falseFind">Chance of finding a difference where there is none, two-sided.</param>
    /// <param name="power">Chance of finding this difference.</param>
    /// <exception cref="ArgumentException">The difference is 0.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the deviation not above 0.</exception>
    public static double VesselsByMeans(
        double difference,
        double deviation,
        Probability falseFind,
        Probability power
    )
    {
        var effect = Math.Abs(Finite.Required(difference)) / Finite.Positive(deviation);
        if (effect == 0)
        {
            throw new ArgumentException("No difference cannot be found.", nameof(difference));
        }

        double Short(double vessels)
        {
            var freedom = 2 * (vessels - 1);
            var limit = StudentT.InvCDF(0, 1, freedom, 1 - (falseFind.Value / 2));
            return 1 - NoncentralT(limit, freedom, effect * Math.Sqrt(vessels / 2)) - power.Value;
        }

        var most = 4.0;
        while (Short(most) < 0 && most < 1e7)
        {
            most *= 2;
        }

        return Short(2) >= 0 ? 2 : Brent.FindRoot(Short, 2, most, 1e-9, 500);
    }

    // P(T <= t): the normal curve about t times the root of a chi-square over its degrees of freedom, averaged over it.
    private static double NoncentralT(double t, double freedom, double shift)
    {
        // The root of chi-square over freedom lies about 1 with a deviation of about 1 / sqrt(2 freedom).
        var width = 12 / Math.Sqrt(2 * freedom);
        var (from, to) = (Math.Max(0, 1 - width), 1 + width);
        return GaussLegendreRule.Integrate(
            root =>
                Normal.CDF(0, 1, (t * root) - shift)
                * ChiSquared.PDF(freedom, root * root * freedom)
                * 2
                * root
                * freedom,
            from,
            to,
            256
        );
    }
}
