using Broodtide.Units;

namespace Broodtide.Oracles.Populations;

/// <summary>
/// The exact answer for one population: a hidden Markov model whose states are all numbers from nothing to the
/// largest. Forward recursion with a thinning matrix Bin(m; n, survival); cost grows with the square of the largest.
/// Source: Zucchini and MacDonald, Hidden Markov Models for Time Series, chapter 2, for the recursion.
/// </summary>
public static class ExactPopulationFilter
{
    /// <summary>The number after each step, given what was seen up to it.</summary>
    /// <exception cref="ArgumentException">
    /// A survival is no probability, numbers are negative, the largest number is passed, or what was seen or taken is
    /// impossible.
    /// </exception>
    public static IReadOnlyList<PopulationBelief> Run(PopulationCourse course)
    {
        var belief = course.StartProbabilities();
        var logLikelihood = 0.0;
        var beliefs = new List<PopulationBelief>();
        foreach (var step in course.Steps)
        {
            belief = Shifted(
                Thinned(belief, Finite.Within(step.Survival, 0, 1)),
                Whole.Within(step.Added, 0, course.Largest)
            );
            foreach (var count in step.Counts)
            {
                logLikelihood += Weigh(belief, n => Math.Exp(count.LogLikelihood(n)));
            }

            var removed = Whole.Within(step.Removed, 0, course.Largest);
            if (removed > 0)
            {
                logLikelihood += Weigh(belief, n => n >= removed ? 1 : 0);
                belief = Shifted(belief, -removed);
            }

            beliefs.Add(new([.. belief], logLikelihood));
        }

        return beliefs;
    }

    private static double[] Thinned(double[] before, double survival)
    {
        var after = new double[before.Length];
        var thinning = new Thinning(survival);
        for (var n = 0; n < before.Length; n++)
        {
            if (before[n] == 0)
            {
                continue;
            }

            var row = thinning.Row(n);
            for (var m = 0; m <= n; m++)
            {
                after[m] += before[n] * row[m];
            }
        }

        return after;
    }

    private static double[] Shifted(double[] before, int by)
    {
        var after = new double[before.Length];
        var lost = 0.0;
        for (var n = 0; n < before.Length; n++)
        {
            if (n + by >= 0 && n + by < after.Length)
            {
                after[n + by] = before[n];
            }
            else
            {
                lost += before[n];
            }
        }

        return lost <= 1e-9
            ? after
            : throw new ArgumentException("The largest number is passed.", nameof(by));
    }

    // Multiplies, scales to one, and gives the logarithm of the scale.
    private static double Weigh(double[] belief, Func<int, double> likelihood)
    {
        var sum = 0.0;
        for (var n = 0; n < belief.Length; n++)
        {
            belief[n] *= likelihood(n);
            sum += belief[n];
        }

        if (sum == 0)
        {
            throw new ArgumentException("What was seen or taken is impossible.", nameof(likelihood));
        }

        for (var n = 0; n < belief.Length; n++)
        {
            belief[n] /= sum;
        }

        return Math.Log(sum);
    }
}
