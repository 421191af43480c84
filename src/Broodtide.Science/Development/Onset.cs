using Broodtide.Science.Statistics;

namespace Broodtide.Science.Development;

/// <summary>
/// The likelihood of repeated looks at a sign that, once there, stays: eyes, pale colour, a new saddle. Written as
/// constant + sum of coefficient times P(onset before the look), so that only those probabilities depend on the
/// hatch day.
/// </summary>
/// <remarks>
/// With looks at t(1) to t(n), the onset falls into one of n + 1 gaps; in gap k the first k looks came before it.
/// C(k) is the chance of what was said at all looks given that gap, G(k) = P(onset before t(k)). Then
/// L = sum C(k) [G(k+1) - G(k)] = C(n) + sum G(k) [C(k-1) - C(k)], with G(0) = 0 and G(n+1) = 1.
/// </remarks>
internal sealed class Onset
{
    private Onset(double constant, double[] days, double[] coefficients)
    {
        Constant = constant;
        Days = days;
        Coefficients = coefficients;
    }

    internal double Constant { get; }

    internal double[] Days { get; }

    internal double[] Coefficients { get; }

    /// <summary>From looks in the order of their days, each with the chance of what was said before and after.</summary>
    internal static Onset From(IReadOnlyList<Look> looks)
    {
        var chances = new double[looks.Count + 1];
        for (var gap = 0; gap <= looks.Count; gap++)
        {
            chances[gap] = 1;
            for (var look = 0; look < looks.Count; look++)
            {
                // Looks before the gap saw the eggs before the onset.
                chances[gap] *= look < gap ? looks[look].IfBefore : looks[look].IfAfter;
            }
        }

        List<double> days = [];
        List<double> coefficients = [];
        for (var look = 0; look < looks.Count; look++)
        {
            var coefficient = chances[look] - chances[look + 1];
            if (coefficient != 0)
            {
                days.Add(looks[look].Day);
                coefficients.Add(coefficient);
            }
        }

        return new(chances[looks.Count], [.. days], [.. coefficients]);
    }

    /// <summary>
    /// Likelihood for a sign that comes a number of days before the hatch, log-normally spread.
    /// </summary>
    internal double Likelihood(double hatchDay, LognormalSpread leadDays)
    {
        var sum = Constant;
        for (var k = 0; k < Days.Length; k++)
        {
            sum += Coefficients[k] * LeadExceeds(hatchDay - Days[k], leadDays);
        }

        // Rounding may leave a hair below zero.
        return Math.Max(0, sum);
    }

    private static double LeadExceeds(double days, LognormalSpread lead)
    {
        if (days <= 0)
        {
            return 1;
        }

        var log = Math.Log(days / lead.Median);
        return lead.LogSd > 0 ? NormalTable.Below(-log / lead.LogSd)
            : log < 0 ? 1
            : 0;
    }

    /// <summary>One look: its day, and the chance of what was said if the sign was not yet, or already, there.</summary>
    internal readonly record struct Look(double Day, double IfBefore, double IfAfter)
    {
        /// <summary>A look that said yes or no, with a chance to be misread.</summary>
        internal static Look Said(double day, bool yes, double misread) =>
            yes ? new(day, misread, 1 - misread) : new(day, 1 - misread, misread);
    }
}
