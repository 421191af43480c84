using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The belief about a total after a count: mean, variance, and how probable the count was.</summary>
internal readonly record struct TotalAfter(double Mean, double Variance, double LogEvidence);

/// <summary>
/// Multiplies a gamma-shaped belief about a total by the exact likelihood of a count on a grid of 40 points, laid
/// where both have weight.
/// </summary>
internal sealed class CountGrid
{
    private const int Points = 40;
    private readonly double[] _totals = new double[Points];
    private readonly double[] _logTotals = new double[Points];
    private readonly double[] _terms = new double[Points];

    internal TotalAfter Update(
        double mean,
        double variance,
        CountTerm term,
        in CountUnknowns unknowns,
        double oddEntry
    )
    {
        // A total nearer to none than this is told from none by no count.
        mean = Math.Max(mean, 0.02);
        variance = Math.Max(variance, 1e-4);
        if (term.IsExact)
        {
            return Exactly(mean, variance, term, oddEntry);
        }

        var sd = Math.Sqrt(variance);
        var low = Math.Max(0, mean - (4.5 * sd));
        var high = mean + (6 * sd);
        var (middle, spread) = term.Focus(unknowns);
        if (spread < 2 * sd)
        {
            // Prior and likelihood together are narrow: lay the points where the likelihood is, but never
            // where the belief has no weight at all.
            low = Math.Max(low, Math.Min(middle - (7 * spread), high - sd));
            high = Math.Min(high, Math.Max(middle + (9 * spread), low + sd));
        }

        var width = (high - low) / Points;
        for (var i = 0; i < Points; i++)
        {
            _totals[i] = low + ((i + 0.5) * width);
        }

        ManyNumbers.Log(_totals, _logTotals);

        term.LogLikelihood(_totals, _logTotals, unknowns, _terms);
        var shape = mean * mean / variance;
        var scale = variance / mean;
        var norm = (shape * Math.Log(scale)) + SpecialFunctions.GammaLn(shape);
        var highest = double.NegativeInfinity;
        for (var i = 0; i < Points; i++)
        {
            _terms[i] += ((shape - 1) * _logTotals[i]) - (_totals[i] / scale) - norm;
            highest = Math.Max(highest, _terms[i]);
        }

        if (double.IsNegativeInfinity(highest))
        {
            return Odd(mean, variance, term, oddEntry);
        }

        for (var i = 0; i < Points; i++)
        {
            // Far below the highest nothing counts, and numbers next to nothing are slow.
            _terms[i] = Math.Max(_terms[i] - highest, -200);
        }

        ManyNumbers.Exp(_terms, _terms);
        double sum = 0;
        double first = 0;
        double second = 0;
        for (var i = 0; i < Points; i++)
        {
            var weight = _terms[i];
            var off = _totals[i] - mean;
            sum += weight;
            first += weight * off;
            second += weight * off * off;
        }

        first /= sum;
        second = (second / sum) - (first * first);
        var logEvidence = highest + Math.Log(sum * width);
        return Mixed(mean, variance, first, second, logEvidence, term, oddEntry);
    }

    // With a chance the entry is plainly wrong, and then it says nothing.
    private static TotalAfter Mixed(
        double mean,
        double variance,
        double step,
        double after,
        double logEvidence,
        CountTerm term,
        double oddEntry
    )
    {
        if (oddEntry <= 0)
        {
            return new(mean + step, after, logEvidence);
        }

        var right = (1 - oddEntry) * Math.Exp(logEvidence);
        var odd = oddEntry * term.OddLikelihood;
        var trust = right / (right + odd);
        return new(
            mean + (trust * step),
            (trust * after) + ((1 - trust) * variance) + (trust * (1 - trust) * step * step),
            Math.Log(right + odd)
        );
    }

    private static TotalAfter Exactly(double mean, double variance, CountTerm term, double oddEntry)
    {
        var shape = mean * mean / variance;
        var rate = mean / variance;
        var chance =
            Gamma.CDF(shape, rate, term.Seen + 0.5)
            - (term.Seen > 0 ? Gamma.CDF(shape, rate, term.Seen - 0.5) : 0);
        return chance > 1e-300
            ? Mixed(mean, variance, term.Seen - mean, 0, Math.Log(chance), term, oddEntry)
            : Odd(mean, variance, term, oddEntry) with
            {
                Mean = term.Seen,
                Variance = 0,
            };
    }

    private static TotalAfter Odd(double mean, double variance, CountTerm term, double oddEntry) =>
        new(mean, variance, Math.Log(Math.Max(oddEntry, 1e-12) * term.OddLikelihood));
}
