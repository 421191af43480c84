using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>How a probability hangs on a straight line.</summary>
public enum BinomialLink
{
    /// <summary>The logarithm of the odds.</summary>
    Logit,

    /// <summary>The normal quantile.</summary>
    Probit,

    /// <summary>ln(-ln(1 - p)), from a constant hazard.</summary>
    ComplementaryLogLog,
}

/// <summary>The three links as functions.</summary>
internal static class BinomialLinks
{
    // Beyond this the probability is 0 or 1 to all digits, and weights would vanish.
    private const double FarthestLine = 30;

    /// <summary>The probability at a height of the line, kept off 0 and 1.</summary>
    internal static double Inverse(this BinomialLink link, double line)
    {
        var eta = Math.Clamp(line, -FarthestLine, FarthestLine);
        var p = link switch
        {
            BinomialLink.Logit => SpecialFunctions.Logistic(eta),
            BinomialLink.Probit => Normal.CDF(0, 1, eta),
            BinomialLink.ComplementaryLogLog => -SpecialFunctions.Expm1(-Math.Exp(eta)),
            _ => throw new ArgumentOutOfRangeException(nameof(link), link, "No such link."),
        };
        return Math.Clamp(p, 1e-14, 1 - 1e-14);
    }

    /// <summary>How fast the probability rises with the line.</summary>
    internal static double Slope(this BinomialLink link, double line)
    {
        var eta = Math.Clamp(line, -FarthestLine, FarthestLine);
        var slope = link switch
        {
            BinomialLink.Logit => SpecialFunctions.Logistic(eta) * SpecialFunctions.Logistic(-eta),
            BinomialLink.Probit => Normal.PDF(0, 1, eta),
            BinomialLink.ComplementaryLogLog => Math.Exp(eta - Math.Exp(eta)),
            _ => throw new ArgumentOutOfRangeException(nameof(link), link, "No such link."),
        };
        return Math.Max(slope, 1e-14);
    }

    /// <summary>The height of the line at a probability between 0 and 1.</summary>
    internal static double Line(this BinomialLink link, double probability)
    {
        var p = Finite.Within(probability, 1e-14, 1 - 1e-14);
        return link switch
        {
            BinomialLink.Logit => Math.Log(p / (1 - p)),
            BinomialLink.Probit => Normal.InvCDF(0, 1, p),
            BinomialLink.ComplementaryLogLog => Math.Log(-SpecialFunctions.Log1p(-p)),
            _ => throw new ArgumentOutOfRangeException(nameof(link), link, "No such link."),
        };
    }
}
