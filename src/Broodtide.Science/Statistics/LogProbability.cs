using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Natural logarithms of the probabilities of counts, with their combinatorial coefficients. What cannot happen has
/// negative infinity. Formulas: Johnson, Kemp and Kotz 2005, Univariate Discrete Distributions, chapters 3 to 6;
/// Mosimann 1962, Biometrika 49:65, for the Dirichlet multinomial.
/// </summary>
public static class LogProbability
{
    // Up to here a rising factorial is multiplied out, which keeps its digits however large the start is.
    private const int MultipliedOut = 40;

    /// <summary>Of a Poisson count.</summary>
    /// <param name="seen">The count, 0 or more.</param>
    /// <param name="mean">Mean, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static double Poisson(int seen, double mean)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        return Finite.NotNegative(mean) > 0
            ? (seen * Math.Log(mean)) - mean - SpecialFunctions.GammaLn(seen + 1.0)
            : Certain(seen == 0);
    }

    /// <summary>Of how many of a number respond, each with one probability.</summary>
    /// <param name="happened">How many did, 0 or more.</param>
    /// <param name="trials">Of how many; it need not be whole, so that a continuous belief can be weighed.</param>
    /// <param name="each">Probability of each.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static double Binomial(int happened, double trials, Probability each)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(happened);
        if (Finite.NotNegative(trials) < happened)
        {
            return double.NegativeInfinity;
        }

        if (each.Value is 0 or 1)
        {
            return Certain(each.Value == 0 ? happened == 0 : trials.Equals(happened));
        }

        return LogChoose(trials, happened)
            + (happened * Math.Log(each.Value))
            + ((trials - happened) * SpecialFunctions.Log1p(-each.Value));
    }

    /// <summary>Of a negative binomial count: Poisson with a mean that itself varies as a gamma.</summary>
    /// <param name="seen">The count, 0 or more.</param>
    /// <param name="mean">Mean, 0 or more.</param>
    /// <param name="size">Clumping k, above zero; variance is mean + mean^2 / k.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite, or a size of zero.</exception>
    public static double NegativeBinomial(int seen, double mean, double size)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        Finite.Positive(size);
        return Finite.NotNegative(mean) > 0
            ? LogRising(size, seen)
                - SpecialFunctions.GammaLn(seen + 1.0)
                - (size * SpecialFunctions.Log1p(mean / size))
                + (seen * (Math.Log(mean) - Math.Log(size + mean)))
            : Certain(seen == 0);
    }

    /// <summary>Of how many of a number respond, with a probability that itself varies as a beta.</summary>
    /// <param name="happened">How many did, 0 or more.</param>
    /// <param name="trials">Of how many; it need not be whole, so that a continuous belief can be weighed.</param>
    /// <param name="shape">The two shapes of the beta distribution.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static double BetaBinomial(int happened, double trials, BetaBelief shape)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(happened);
        if (Finite.NotNegative(trials) < happened)
        {
            return double.NegativeInfinity;
        }

        return LogChoose(trials, happened)
            + LogRising(shape.A, happened)
            + LogRising(shape.B, trials - happened)
            - LogRising(shape.A + shape.B, trials);
    }

    /// <summary>Of counts in classes, with shares that themselves vary as a Dirichlet.</summary>
    /// <param name="counts">The count of each class, 0 or more.</param>
    /// <param name="alphas">The Dirichlet parameter of each class, above zero.</param>
    /// <exception cref="ArgumentException">Not as many parameters as counts.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative, or a parameter is not positive.</exception>
    public static double DirichletMultinomial(ReadOnlySpan<int> counts, ReadOnlySpan<double> alphas)
    {
        if (counts.Length != alphas.Length)
        {
            throw new ArgumentException("Each class has one count and one parameter.", nameof(alphas));
        }

        var (sum, alpha, log) = (0.0, 0.0, 0.0);
        for (var i = 0; i < counts.Length; i++)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(counts[i], nameof(counts));
            log +=
                LogRising(Finite.Positive(alphas[i], nameof(alphas)), counts[i])
                - SpecialFunctions.GammaLn(counts[i] + 1.0);
            sum += counts[i];
            alpha += alphas[i];
        }

        return sum > 0 ? log + SpecialFunctions.GammaLn(sum + 1) - LogRising(alpha, sum) : 0;
    }

    /// <summary>Logarithm of n choose k for an n that need not be whole.</summary>
    internal static double LogChoose(double from, double taken) =>
        SpecialFunctions.GammaLn(from + 1)
        - SpecialFunctions.GammaLn(taken + 1)
        - SpecialFunctions.GammaLn(from - taken + 1);

    /// <summary>ln of start (start + 1) ... (start + steps - 1).</summary>
    internal static double LogRising(double start, double steps)
    {
        if (steps > MultipliedOut || !double.IsInteger(steps))
        {
            return SpecialFunctions.GammaLn(start + steps) - SpecialFunctions.GammaLn(start);
        }

        var log = 0.0;
        for (var i = 0; i < steps; i++)
        {
            log += Math.Log(start + i);
        }

        return log;
    }

    private static double Certain(bool happens) => happens ? 0 : double.NegativeInfinity;
}
