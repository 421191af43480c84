using Broodtide.Oracles.Particles;
using Broodtide.Oracles.Populations;

namespace Broodtide.Science.Tests.Oracles;

/// <summary>The oracles agree with plain enumeration, with each other, and notice what cannot be.</summary>
public sealed class PopulationOracleTests
{
    private static readonly PopulationCourse Small = new(
        new PopulationStart.Known(4),
        [
            new(0.7, 1, [new CountSeen.Detected(2, 0.5)], 1),
            new(0.6, 0, [new CountSeen.Clumped(1, 0.4, 2), new CountSeen.Photographed(1, 3, 2)], 0),
        ],
        12
    );

    public static TheoryData<string> Names() => [.. PopulationCases.All.Keys];

    [Fact]
    public void The_exact_filter_says_what_enumerating_every_life_says()
    {
        // Each of five larvae is alive or not after each step; the added one joins before the first count.
        var joint = new double[6];
        for (var first = 0; first <= 4; first++)
        {
            var afterFirst = Choose(4, first) * Math.Pow(0.7, first) * Math.Pow(0.3, 4 - first);
            var counted = first + 1;
            if (counted < 2)
            {
                continue;
            }

            var seenFirst = Choose(counted, 2) * Math.Pow(0.5, counted);
            var left = counted - 1;
            for (var second = 0; second <= left; second++)
            {
                var afterSecond = Choose(left, second) * Math.Pow(0.6, second) * Math.Pow(0.4, left - second);
                // Size 2, mean 0.4 each: one seen.
                var mean = 0.4 * second;
                var clumped = 2 * Math.Pow(2 / (2 + mean), 2) * (mean / (2 + mean));
                // Beta 3, 2: one seen of n, n times the integral of p (1 - p)^(n - 1) over the density 12 p^2 (1 - p).
                var photographed = 12 * second * Factorial(second) / Rising(4, second + 1);
                joint[second] += afterFirst * seenFirst * afterSecond * clumped * photographed;
            }
        }

        var belief = ExactPopulationFilter.Run(Small)[^1];
        Assert.Equal(Math.Log(joint.Sum()), belief.LogLikelihood, 1e-12);
        Assert.Equal(
            joint.Select((probability, n) => probability * n).Sum() / joint.Sum(),
            belief.Mean,
            1e-12
        );
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_particles_agree_with_the_exact_answer(string name)
    {
        var course = PopulationCases.All[name];
        var exact = ExactPopulationFilter.Run(course)[^1];
        var runs = Enumerable
            .Range(1, 20)
            .Select(seed => BootstrapFilter.Run(course, 4000, seed)[^1])
            .ToArray();

        Assert.Equal(1, runs.Average(run => Math.Exp(run.LogLikelihood - exact.LogLikelihood)), 0.02);
        Assert.Equal(exact.Mean, runs.Average(run => run.Mean), 0.005 * exact.Mean);
        Assert.Equal(exact.StandardDeviation, runs.Average(run => run.StandardDeviation), 0.05);
    }

    [Fact]
    public void A_particle_filter_that_thinks_more_survive_is_found_out()
    {
        var course = PopulationCases.All["A"];
        var wrong = course with { Steps = [.. course.Steps.Select(step => step with { Survival = 0.93 })] };
        var exact = ExactPopulationFilter.Run(course)[^1].LogLikelihood;
        var ratio = Enumerable
            .Range(1, 20)
            .Average(seed => Math.Exp(BootstrapFilter.Run(wrong, 4000, seed)[^1].LogLikelihood - exact));

        Assert.NotInRange(ratio, 0.98, 1.02);
    }

    [Fact]
    public void The_same_seed_gives_the_same_particles() =>
        Assert.Equal(
            BootstrapFilter.Run(PopulationCases.All["C"], 500, 9)[^1].Alive,
            BootstrapFilter.Run(PopulationCases.All["C"], 500, 9)[^1].Alive
        );

    [Fact]
    public void More_seen_exactly_than_can_be_alive_is_impossible_for_both()
    {
        var course = new PopulationCourse(
            new PopulationStart.Known(4),
            [new(0.7, 0, [new CountSeen.Exact(5)], 0)],
            12
        );

        Assert.ThrowsAny<ArgumentException>(() => ExactPopulationFilter.Run(course));
        Assert.ThrowsAny<ArgumentException>(() => BootstrapFilter.Run(course, 10, 1));
    }

    [Fact]
    public void More_added_than_the_largest_number_holds_is_refused() =>
        Assert.ThrowsAny<ArgumentException>(() =>
            ExactPopulationFilter.Run(new(new PopulationStart.Scattered(5), [new(0.9, 30, [], 0)], 30))
        );

    private static double Choose(int n, int k) => Factorial(n) / (Factorial(k) * Factorial(n - k));

    private static double Factorial(int n) => n < 2 ? 1 : n * Factorial(n - 1);

    // a (a + 1) ... with so many factors.
    private static double Rising(double a, int factors) =>
        Enumerable.Range(0, factors).Aggregate(1.0, (product, i) => product * (a + i));
}
