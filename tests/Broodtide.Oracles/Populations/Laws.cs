using MathNet.Numerics;

namespace Broodtide.Oracles.Populations;

/// <summary>Logarithms of probabilities, right at their edges too.</summary>
internal static class Laws
{
    public static double LogBinomial(int seen, int trials, double chance)
    {
        if (seen > trials)
        {
            return double.NegativeInfinity;
        }

        return SpecialFunctions.BinomialLn(trials, seen)
            + Times(seen, Math.Log(chance))
            + Times(trials - seen, Math.Log(1 - chance));
    }

    public static double LogPoisson(int seen, double mean) =>
        Times(seen, Math.Log(mean)) - mean - SpecialFunctions.FactorialLn(seen);

    public static double LogNegativeBinomial(int seen, double mean, double size) =>
        SpecialFunctions.GammaLn(seen + size)
        - SpecialFunctions.GammaLn(size)
        - SpecialFunctions.FactorialLn(seen)
        - (size * Math.Log(1 + (mean / size)))
        + Times(seen, Math.Log(mean / (size + mean)));

    // Nothing times minus infinity is nothing: what cannot happen did not happen.
    private static double Times(int count, double log) => count == 0 ? 0 : count * log;
}
