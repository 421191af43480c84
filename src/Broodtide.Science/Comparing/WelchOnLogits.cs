using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Comparing;

/// <summary>
/// Student's t between two groups of shares that vary unequally (Welch 1947, Biometrika 34:28), on the logarithm of the
/// odds.
/// </summary>
/// <param name="T">The difference of the mean log odds over its standard error.</param>
/// <param name="DegreesOfFreedom">Degrees of freedom by Satterthwaite's formula.</param>
/// <param name="Difference">Mean log odds of the first less that of the second.</param>
/// <param name="StandardError">Standard error of the difference.</param>
/// <param name="P">Two-sided p.</param>
public sealed record WelchOnLogits(
    double T,
    double DegreesOfFreedom,
    double Difference,
    double StandardError,
    Probability P
)
{
    /// <summary>Compares two groups.</summary>
    /// <param name="first">Two shares or more, above 0 and below 1, one a vessel.</param>
    /// <param name="second">The same of the other treatment.</param>
    /// <exception cref="ArgumentException">Less than two vessels, or no two differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A share is not above 0 and below 1.</exception>
    public static WelchOnLogits Of(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var (one, other) = (Group.Of(first), Group.Of(second));
        var error = Math.Sqrt(one.SquaredError + other.SquaredError);
        if (error <= 0)
        {
            throw new ArgumentException(
                "Vessels that are all alike leave nothing to compare with.",
                nameof(first)
            );
        }

        var difference = one.Mean - other.Mean;
        var freedom =
            Math.Pow(one.SquaredError + other.SquaredError, 2)
            / (
                (Math.Pow(one.SquaredError, 2) / (one.Count - 1))
                + (Math.Pow(other.SquaredError, 2) / (other.Count - 1))
            );
        var t = difference / error;
        return new(
            t,
            freedom,
            difference,
            error,
            Probability.FromFraction(Math.Min(1, 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(t))))
        );
    }

    private readonly record struct Group(int Count, double Mean, double SquaredError)
    {
        public static Group Of(IReadOnlyList<double> shares)
        {
            if (shares.Count < 2)
            {
                throw new ArgumentException(
                    "Two vessels of each treatment at least are needed.",
                    nameof(shares)
                );
            }

            double[] logits =
            [
                .. shares.Select(share =>
                {
                    Finite.Within(share, double.Epsilon, Math.BitDecrement(1), nameof(shares));
                    return Math.Log(share / (1 - share));
                }),
            ];
            var mean = logits.Average();
            var variance = logits.Sum(logit => Math.Pow(logit - mean, 2)) / (logits.Length - 1);
            return new(logits.Length, mean, variance / logits.Length);
        }
    }
}
