using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Staging;

/// <summary>The distribution that turns a standardised distance into a share.</summary>
public enum StageLink
{
    /// <summary>Logistic.</summary>
    Logit,

    /// <summary>Normal.</summary>
    Probit,

    /// <summary>Complementary log-log: 1 - exp(-exp(x)).</summary>
    ComplementaryLogLog,
}

/// <summary>The functions of a link.</summary>
internal static class StageLinks
{
    /// <summary>Share at or below a standardised distance.</summary>
    internal static double Below(this StageLink link, double x) =>
        link switch
        {
            StageLink.Logit => 1 / (1 + Math.Exp(-x)),
            StageLink.Probit => Normal.CDF(0, 1, x),
            StageLink.ComplementaryLogLog => -SpecialFunctions.Expm1(-Math.Exp(x)),
            _ => throw new ArgumentOutOfRangeException(nameof(link), link, "No such link."),
        };

    /// <summary>Share above, exact where it is tiny.</summary>
    internal static double Above(this StageLink link, double x) =>
        link == StageLink.ComplementaryLogLog ? Math.Exp(-Math.Exp(x)) : link.Below(-x);

    /// <summary>Share between two distances, the lower first, by the tail in which nothing is lost.</summary>
    internal static double Between(this StageLink link, double lower, double upper) =>
        lower > 0 ? link.Above(lower) - link.Above(upper) : link.Below(upper) - link.Below(lower);

    /// <summary>Density.</summary>
    internal static double Density(this StageLink link, double x) =>
        link switch
        {
            StageLink.Logit => link.Below(x) * link.Below(-x),
            StageLink.Probit => Normal.PDF(0, 1, x),
            StageLink.ComplementaryLogLog => Math.Exp(x - Math.Exp(x)),
            _ => throw new ArgumentOutOfRangeException(nameof(link), link, "No such link."),
        };

    /// <summary>The distance below which a share lies, above 0 and below 1.</summary>
    internal static double Inverse(this StageLink link, double share)
    {
        Finite.Within(share, double.Epsilon, Math.BitDecrement(1));
        return link switch
        {
            StageLink.Logit => Math.Log(share / (1 - share)),
            StageLink.Probit => Normal.InvCDF(0, 1, share),
            StageLink.ComplementaryLogLog => Math.Log(-SpecialFunctions.Log1p(-share)),
            _ => throw new ArgumentOutOfRangeException(nameof(link), link, "No such link."),
        };
    }
}
