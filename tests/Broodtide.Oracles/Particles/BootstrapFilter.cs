using Broodtide.Oracles.Populations;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Oracles.Particles;

/// <summary>
/// The second opinion: many populations thrown by chance, weighed by what was seen (Gordon, Salmond and Smith 1993),
/// resampled systematically when they are worth fewer than half their number. Where a count is trusted to the last
/// one, blind throws would nearly all miss: there each particle is put at the count and weighed by its chance to get
/// there, which keeps the likelihood unbiased.
/// </summary>
public static class BootstrapFilter
{
    /// <summary>Runs the course once; the same seed gives the same answer.</summary>
    /// <exception cref="ArgumentException">The course is ill-formed, or no particle can have come about.</exception>
    public static IReadOnlyList<ParticleBelief> Run(PopulationCourse course, int particles, int seed)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(particles, 1);
        var random = new Random(seed);
        var alive = Starts(course, particles, random);
        var weights = Enumerable.Repeat(1.0 / particles, particles).ToArray();
        // A prior cut off at the start is not scaled up.
        var logLikelihood = Math.Log(course.StartProbabilities().Sum());
        var beliefs = new List<ParticleBelief>();
        foreach (var step in course.Steps)
        {
            var thinning = new Thinning(Finite.Within(step.Survival, 0, 1));
            var exact = step.Counts.OfType<CountSeen.Exact>().FirstOrDefault();
            var likelihoods = new Dictionary<int, double>();
            for (var i = 0; i < particles; i++)
            {
                var before = alive[i];
                if (exact is null)
                {
                    alive[i] = thinning.Draw(before, random.NextDouble()) + step.Added;
                }
                else
                {
                    var through = exact.Seen - step.Added;
                    weights[i] *= through < 0 || through > before ? 0 : thinning.Row(before)[through];
                    alive[i] = exact.Seen;
                }

                if (!likelihoods.TryGetValue(alive[i], out var likelihood))
                {
                    likelihood =
                        step.Removed > alive[i]
                            ? 0
                            : Math.Exp(step.Counts.Sum(count => count.LogLikelihood(alive[i])));
                    likelihoods[alive[i]] = likelihood;
                }

                weights[i] *= likelihood;
                alive[i] = Math.Max(0, alive[i] - step.Removed);
            }

            logLikelihood += Math.Log(Scale(weights));
            beliefs.Add(new([.. alive], [.. weights], logLikelihood));
            if (Weights.EffectiveSampleSize(weights) < particles / 2.0)
            {
                alive =
                [
                    .. SystematicResampling.Indices(weights, random.NextDouble()).Select(at => alive[at]),
                ];
                Array.Fill(weights, 1.0 / particles);
            }
        }

        return beliefs;
    }

    /// <summary>
    /// Mean over runs of exp(log-likelihood found - exact): one, up to chance, since the likelihood found is unbiased
    /// (Andrieu, Doucet and Holenstein 2010).
    /// </summary>
    /// <exception cref="ArgumentException">As above, or fewer than one run.</exception>
    public static double MeanLikelihoodRatio(PopulationCourse course, int particles, int runs, int seed)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(runs, 1);
        var exact = ExactPopulationFilter.Run(course)[^1].LogLikelihood;
        return Enumerable
            .Range(0, runs)
            .Average(run => Math.Exp(Run(course, particles, seed + run)[^1].LogLikelihood - exact));
    }

    private static int[] Starts(PopulationCourse course, int particles, Random random)
    {
        var probabilities = course.StartProbabilities();
        var starts = new int[particles];
        Categorical.Samples(random, starts, probabilities);
        return starts;
    }

    private static double Scale(double[] weights)
    {
        var sum = Weights.Sum(weights);
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] /= sum;
        }

        return sum;
    }
}
