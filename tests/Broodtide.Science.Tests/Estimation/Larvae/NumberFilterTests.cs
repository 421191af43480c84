using Broodtide.Oracles.Populations;
using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>
/// The filter of means and variances beside the exact discrete filter: means within 1 %, standard deviations within 3 %
/// (none after an exact count), log-likelihood within 0.05 nat.
/// </summary>
public sealed class NumberFilterTests
{
    public static TheoryData<string> Names() => [.. PopulationCases.All.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_filter_says_at_every_step_what_the_exact_filter_says(string name)
    {
        var course = PopulationCases.All[name];
        var exact = ExactPopulationFilter.Run(course);
        var told = Filtered(course);

        for (var step = 0; step < exact.Count; step++)
        {
            Assert.Equal(exact[step].Mean, told[step].Mean, 0.01 * exact[step].Mean);
            Assert.Equal(exact[step].LogLikelihood, told[step].LogLikelihood, 0.05);
            if (!course.Steps[step].Counts.Any(count => count is CountSeen.Exact))
            {
                var sd = exact[step].StandardDeviation;
                Assert.Equal(sd, told[step].Sd, 0.03 * sd);
            }
        }
    }

    // The last rows of the three cases in tests/reference/statistics-checks.csv (popfilter).
    [Theory]
    [InlineData("A", 21.9912323, 1.974004341, -7.22523781)]
    [InlineData("B", 47, null, -10.13473811)]
    [InlineData("C", 27.27679607, 3.674143603, -8.51678538)]
    public void The_last_belief_is_that_of_the_computed_rows(
        string name,
        double mean,
        double? sd,
        double logLikelihood
    )
    {
        var last = Filtered(PopulationCases.All[name])[^1];

        Assert.Equal(mean, last.Mean, 0.01 * mean);
        Assert.Equal(logLikelihood, last.LogLikelihood, 0.05);
        if (sd is { } expected)
        {
            Assert.Equal(expected, last.Sd, 0.03 * expected);
        }
    }

    [Fact]
    public void A_filter_that_lets_larvae_die_faster_is_found_out()
    {
        var course = PopulationCases.All["C"];
        var wrong = course with
        {
            Steps = [.. course.Steps.Select(step => step with { Survival = step.Survival * 0.9 })],
        };

        Assert.NotInRange(Filtered(wrong)[^1].Mean, 27.0, 27.6);
    }

    [Fact]
    public void A_count_that_rests_on_an_unknown_of_a_run_is_refused() =>
        Assert.Throws<ArgumentException>(() =>
            new NumberFilter(1).Observe(1, new LookEvidence(3, 0, 3, false))
        );

    [Fact]
    public void No_cells_and_more_than_62_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new NumberFilter(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new NumberFilter(63));
    }

    private static List<(double Mean, double Sd, double LogLikelihood)> Filtered(PopulationCourse course)
    {
        var filter = new NumberFilter(1);
        switch (course.Start)
        {
            case PopulationStart.Known known:
                filter.Add(0, known.Number, 0);
                break;
            case PopulationStart.Scattered scattered:
                filter.Add(0, scattered.Mean, scattered.Mean);
                break;
            default:
                throw new InvalidOperationException("No such start in the cases.");
        }

        List<(double, double, double)> told = [];
        var logLikelihood = 0.0;
        foreach (var step in course.Steps)
        {
            filter.Thin(step.Survival);
            filter.Add(0, step.Added, 0);
            foreach (var count in step.Counts)
            {
                logLikelihood += filter.Observe(1, Evidence(count));
            }

            filter.Remove(0, step.Removed);
            var (mean, variance) = filter.Total(1);
            told.Add((mean, Math.Sqrt(variance), logLikelihood));
        }

        return told;
    }

    private static CountEvidence Evidence(CountSeen count) =>
        count switch
        {
            CountSeen.Detected seen => new KnownChanceEvidence(seen.Seen, seen.Chance),
            CountSeen.Clumped seen => new KnownClumpingEvidence(seen.Seen, seen.MeanEach, seen.Size),
            CountSeen.Photographed seen => new TrialledEvidence(seen.Seen, seen.Found, seen.Missed),
            CountSeen.Exact seen => new ExactEvidence(seen.Seen),
            _ => throw new InvalidOperationException("No such count in the cases."),
        };
}
