using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The belief about a total after a count: mean, variance, and how probable the count was.</summary>
internal readonly record struct TotalAfter(double Mean, double Variance, double LogEvidence);

/// <summary>
/// Multiplies a gamma-shaped belief about a total by the exact likelihood of a count on a grid, laid where both have
/// weight. The grid has equal steps in the cube root, in which a gamma law is nearly normal (Wilson and Hilferty 1931),
/// and equal steps sum a bell very well: at one standard deviation the error is below a millionth. 16 points are
/// enough for it; a likelihood that is cut off at what was seen gets 40.
/// </summary>
internal sealed class CountGrid
{
    private const int SmoothPoints = 16;
    private const int EdgedPoints = 40;
    private readonly double[] _totals = new double[EdgedPoints];
    private readonly double[] _roots = new double[EdgedPoints];
    private readonly double[] _logTotals = new double[EdgedPoints];
    private readonly double[] _terms = new double[EdgedPoints];

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

        var points = term.HasEdge ? EdgedPoints : SmoothPoints;
        var totals = _totals.AsSpan(0, points);
        var logTotals = _logTotals.AsSpan(0, points);
        var terms = _terms.AsSpan(0, points);
        var width = Lay(totals, logTotals, mean, variance, term, unknowns);
        term.LogLikelihood(totals, logTotals, unknowns, terms);

        var shape = mean * mean / variance;
        var rate = mean / variance;
        var norm = SpecialFunctions.GammaLn(shape) - (shape * Math.Log(rate));
        var highest = double.NegativeInfinity;
        for (var i = 0; i < terms.Length; i++)
        {
            terms[i] += (RootPower(shape) * logTotals[i]) - (totals[i] * rate);
            highest = Math.Max(highest, terms[i]);
        }

        if (double.IsNegativeInfinity(highest))
        {
            return Odd(mean, variance, term, oddEntry);
        }

        for (var i = 0; i < terms.Length; i++)
        {
            // Far below the highest nothing counts, and numbers next to nothing are slow.
            terms[i] = Math.Max(terms[i] - highest, -200);
        }

        ManyNumbers.Exp(terms, terms);
        double sum = 0;
        double first = 0;
        double second = 0;
        for (var i = 0; i < terms.Length; i++)
        {
            var off = totals[i] - mean;
            var weighted = terms[i] * off;
            sum += terms[i];
            first += weighted;
            second += weighted * off;
        }

        first /= sum;
        second = (second / sum) - (first * first);
        return Mixed(
            mean,
            variance,
            first,
            second,
            highest - norm + Math.Log(3 * sum * width),
            term,
            oddEntry
        );
    }

    /// <summary>
    /// A look that says how many are there at least, and must not lower any point of the belief. Its likelihood rises
    /// with the total, so on one and the same grid the mean can only rise; the variance is left as it was, since a
    /// narrower bell about a little higher mean would end lower at its upper side.
    /// </summary>
    internal TotalAfter Raise(double mean, double variance, CountTerm term, double oddEntry)
    {
        mean = Math.Max(mean, 0.02);
        variance = Math.Max(variance, 1e-4);
        var totals = _totals.AsSpan();
        var logTotals = _logTotals.AsSpan();
        var terms = _terms.AsSpan();
        Lay(totals, logTotals, mean, variance, term, default);
        term.LogLikelihood(totals, logTotals, default, terms);
        ManyNumbers.Exp(terms, terms);
        var shape = mean * mean / variance;
        var highest = double.NegativeInfinity;
        for (var i = 0; i < totals.Length; i++)
        {
            logTotals[i] = (RootPower(shape) * logTotals[i]) - (totals[i] * mean / variance);
            highest = Math.Max(highest, logTotals[i]);
        }

        for (var i = 0; i < totals.Length; i++)
        {
            logTotals[i] = Math.Max(logTotals[i] - highest, -200);
        }

        ManyNumbers.Exp(logTotals, logTotals);
        double before = 0;
        double beforeFirst = 0;
        double after = 0;
        double afterFirst = 0;
        for (var i = 0; i < totals.Length; i++)
        {
            var weight = logTotals[i];
            before += weight;
            beforeFirst += weight * totals[i];
            after += weight * terms[i];
            afterFirst += weight * terms[i] * totals[i];
        }

        var right = (1 - oddEntry) * after / before;
        var odd = oddEntry * term.OddLikelihood;
        // An entry that nothing explains and nobody doubts raises nothing.
        var step = right > 0 ? right / (right + odd) * ((afterFirst / after) - (beforeFirst / before)) : 0;
        return new(mean + Math.Max(0, step), variance, Math.Log(Math.Max(right + odd, 1e-300)));
    }

    // The density of a gamma law times the change of scale: T^(shape - 1) dT = 3 T^(shape - 1/3) dy with T = y^3.
    private static double RootPower(double shape) => shape - (1.0 / 3);

    // Middles of equal steps of the cube root; gives their width.
    private double Lay(
        Span<double> totals,
        Span<double> logTotals,
        double mean,
        double variance,
        CountTerm term,
        in CountUnknowns unknowns
    )
    {
        var sd = Math.Sqrt(variance);
        var low = Math.Max(0, mean - (4.5 * sd));
        var high = mean + (6 * sd) + (2 * variance / mean);
        var (middle, spread) = term.Focus(unknowns);
        if (spread < 2 * sd)
        {
            // Prior and likelihood together are narrow: lay the points where the likelihood is, but never
            // where the belief has no weight at all.
            low = Math.Max(low, Math.Min(middle - (7 * spread), high - sd));
            high = Math.Min(high, Math.Max(middle + (9 * spread), low + sd));
        }

        if (term.HasEdge)
        {
            // A whole number stands for the real ones from half below it.
            low = Math.Clamp(term.Seen - 0.5, low, Math.Max(low, high - sd));
        }

        var lowRoot = Math.Cbrt(low);
        var width = (Math.Cbrt(high) - lowRoot) / totals.Length;
        var roots = _roots.AsSpan(0, totals.Length);
        for (var i = 0; i < roots.Length; i++)
        {
            var root = lowRoot + ((i + 0.5) * width);
            roots[i] = root;
            totals[i] = root * root * root;
        }

        ManyNumbers.Log(roots, logTotals);
        for (var i = 0; i < logTotals.Length; i++)
        {
            logTotals[i] *= 3;
        }

        return width;
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
        var trust = Sharpened(right / (right + odd));
        return new(
            mean + (trust * step),
            (trust * after) + ((1 - trust) * variance) + (trust * (1 - trust) * step * step),
            Math.Log(right + odd)
        );
    }

    // Mean and variance cannot hold a small chance of something far away: it would widen the bell where the 5 and 95 %
    // points stand, which it does not reach. So what is nearly sure is taken for sure, and doubt counts in between.
    private static double Sharpened(double trust) => Math.Clamp((trust - 0.1) / 0.8, 0, 1);

    private static TotalAfter Exactly(double mean, double variance, CountTerm term, double oddEntry)
    {
        var shape = mean * mean / variance;
        var rate = mean / variance;
        var chance =
            Gamma.CDF(shape, rate, term.Seen + 0.5)
            - (term.Seen > 0 ? Gamma.CDF(shape, rate, term.Seen - 0.5) : 0);
        // Trusted exactly, however unlikely it was; only the supposition is weighed by it.
        var likely = ((1 - oddEntry) * Math.Max(chance, 0)) + (oddEntry * term.OddLikelihood);
        return new(term.Seen, 0, Math.Log(Math.Max(likely, 1e-300)));
    }

    private static TotalAfter Odd(double mean, double variance, CountTerm term, double oddEntry) =>
        new(mean, variance, Math.Log(Math.Max(oddEntry, 1e-12) * term.OddLikelihood));
}
