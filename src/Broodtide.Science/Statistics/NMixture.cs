using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Statistics;

/// <summary>How the true numbers vary between places.</summary>
public enum NumberLaw
{
    /// <summary>As a Poisson.</summary>
    Poisson,

    /// <summary>Clumped, as a negative binomial.</summary>
    NegativeBinomial,
}

/// <summary>What a mixture model hangs on.</summary>
/// <param name="Number">Design of the mean number, one row a place, by its logarithm.</param>
/// <param name="Detection">Design of the chance of being seen, one row a visit, place by place, by its odds.</param>
/// <param name="Law">How numbers vary between places.</param>
/// <param name="MostNumber">Largest number summed over.</param>
public sealed record NMixtureModel(
    RegressionDesign Number,
    RegressionDesign Detection,
    NumberLaw Law,
    int MostNumber
);

/// <summary>A fitted mixture model.</summary>
/// <param name="Number">Coefficients of the logarithm of the mean number.</param>
/// <param name="Detection">Coefficients of the odds of being seen.</param>
/// <param name="LogClumping">Logarithm of the clumping k; none for a Poisson law.</param>
/// <param name="LogLikelihood">Log likelihood, nat.</param>
/// <param name="Converged">Whether the search came to rest.</param>
/// <param name="NumberBoundMatters">
/// Whether the fitted law reaches beyond the largest number summed over. Then the estimate is made by that bound, not
/// by the counts: repeated counts that vary as much as they are large cannot tell few seen well from many seen badly
/// (Dennis, Morgan and Ridout 2015, Biometrics 71:237). Never report such a number.
/// </param>
public sealed record NMixtureFit(
    IReadOnlyList<Coefficient> Number,
    IReadOnlyList<Coefficient> Detection,
    double? LogClumping,
    double LogLikelihood,
    bool Converged,
    bool NumberBoundMatters
);

/// <summary>
/// Numbers and detection from counts repeated at several places: the likelihood of a place is the sum over N of
/// f(N) times the product over visits of Binomial(y; N, p) (Royle 2004, Biometrics 60:108). For larvae a calibrated
/// chance of being seen is better.
/// </summary>
public static class NMixture
{
    private const double BoundReached = 1e-4;
    private const double LargestLogMean = 20;

    /// <summary>Fits by maximum likelihood.</summary>
    /// <param name="counts">One list a place, one count a visit; none for a visit that was missed.</param>
    /// <param name="model">What number and detection hang on.</param>
    /// <exception cref="ArgumentException">Rows of a design differ from places or visits, or nothing was counted.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative or above the largest number.</exception>
    public static NMixtureFit Fit(IReadOnlyList<IReadOnlyList<int?>> counts, NMixtureModel model)
    {
        Check(counts, model);
        var (numbers, chances) = (model.Number.Matrix(), model.Detection.Matrix());
        var (n, p) = (numbers.ColumnCount, chances.ColumnCount);
        var clumped = model.Law == NumberLaw.NegativeBinomial;
        var meanMost = counts
            .Where(place => place.Any(y => y is not null))
            .Average(place => place.Max() ?? 0);
        double[] logFactorials =
        [
            .. Enumerable.Range(0, model.MostNumber + 1).Select(SpecialFunctions.FactorialLn),
        ];
        var start = new double[n + p + (clumped ? 1 : 0)];
        start[0] = Math.Log(meanMost + 0.5);
        var found = Maximum.Find(
            at =>
            {
                var line = numbers * Vector<double>.Build.Dense(at[..n]);
                var odds = chances * Vector<double>.Build.Dense(at[n..(n + p)]);
                return LogLikelihood(counts, logFactorials, line, odds, clumped ? Math.Exp(at[^1]) : null);
            },
            start
        );
        var errors = found.StandardErrors();
        var greatest = Math.Exp((numbers * Vector<double>.Build.Dense(found.At[..n])).Maximum());
        return new(
            Coefficients.Of(model.Number.Names, found.At.AsSpan(0, n), errors.AsSpan(0, n)),
            Coefficients.Of(model.Detection.Names, found.At.AsSpan(n, p), errors.AsSpan(n, p)),
            clumped ? found.At[^1] : null,
            found.Value,
            found.Converged,
            Beyond(model.MostNumber, greatest, clumped ? Math.Exp(found.At[^1]) : null) > BoundReached
        );
    }

    private static void Check(IReadOnlyList<IReadOnlyList<int?>> counts, NMixtureModel model)
    {
        if (model.Number.Rows != counts.Count || model.Detection.Rows != counts.Sum(place => place.Count))
        {
            throw new ArgumentException(
                "The designs have one row a place and one row a visit.",
                nameof(model)
            );
        }

        var seen = counts.SelectMany(place => place).OfType<int>().ToArray();
        foreach (var count in seen)
        {
            Finite.Within(count, 0, model.MostNumber, nameof(counts));
        }

        if (seen.Sum() == 0)
        {
            throw new ArgumentException(
                "Nothing was seen at all, so nothing tells numbers from detection.",
                nameof(counts)
            );
        }
    }

    private static double LogLikelihood(
        IReadOnlyList<IReadOnlyList<int?>> counts,
        double[] logFactorials,
        Vector<double> logMean,
        Vector<double> odds,
        double? clumping
    )
    {
        var (sum, visit) = (0.0, 0);
        var terms = new double[logFactorials.Length];
        for (var place = 0; place < counts.Count; place++)
        {
            var mean = Math.Exp(Math.Min(logMean[place], LargestLogMean));
            var visits = odds.SubVector(visit, counts[place].Count);
            visit += counts[place].Count;
            sum += OfPlace(counts[place], mean, visits, clumping, logFactorials, terms);
        }

        return sum;
    }

    private static double OfPlace(
        IReadOnlyList<int?> counts,
        double mean,
        Vector<double> odds,
        double? clumping,
        double[] logFactorials,
        double[] terms
    )
    {
        if (counts.All(count => count is null))
        {
            return 0;
        }

        var least = counts.Max() ?? 0;
        var logMean = Math.Log(mean);
        for (var number = least; number < terms.Length; number++)
        {
            terms[number] = clumping is { } k
                ? LogProbability.NegativeBinomial(number, mean, k)
                : (number * logMean) - mean - logFactorials[number];
        }

        for (var j = 0; j < counts.Count; j++)
        {
            if (counts[j] is not { } y)
            {
                continue;
            }

            // ln Binomial(y; N, p) = ln C(N, y) + y ln p + (N - y) ln (1 - p).
            var p = BinomialLink.Logit.Inverse(odds[j]);
            var (seen, missed) = (Math.Log(p), SpecialFunctions.Log1p(-p));
            for (var number = least; number < terms.Length; number++)
            {
                terms[number] +=
                    logFactorials[number]
                    - logFactorials[y]
                    - logFactorials[number - y]
                    + (y * seen)
                    + ((number - y) * missed);
            }
        }

        var top = double.NegativeInfinity;
        for (var number = least; number < terms.Length; number++)
        {
            top = Math.Max(top, terms[number]);
        }

        var sum = 0.0;
        for (var number = least; number < terms.Length; number++)
        {
            sum += Math.Exp(terms[number] - top);
        }

        return top + Math.Log(sum);
    }

    private static double Beyond(int most, double mean, double? clumping) =>
        1 - (clumping is { } k ? NegativeBinomial.CDF(k, k / (k + mean), most) : Poisson.CDF(mean, most));
}
