using Broodtide.Science.Statistics;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

/// <summary>The score of a forecast that is known by its 5, 50 and 95 % points only.</summary>
public sealed class ForecastOfThreePointsTests
{
    private const double Point95 = 1.6448536269514722;

    // R package scoringRules, tests of its vignette (commit 8cd71a8); the last two by definition.
    [Theory]
    [InlineData(-3, 0, 1, 2.43657473)]
    [InlineData(0, 2, 2, 1.204883)]
    [InlineData(0, 0, 1, 0.2336949773)]
    [InlineData(31, 29.5, 2, 0.8962885044)]
    public void Of_a_normal_it_is_the_score_of_the_normal(
        double happened,
        double mean,
        double sd,
        double expected
    ) =>
        Assert.Equal(
            expected,
            RankedProbabilityScore.Halves(
                Interval.FromPoints(mean - (Point95 * sd), mean, mean + (Point95 * sd)),
                happened
            ),
            1e-6
        );

    [Fact]
    public void Of_any_three_points_it_is_the_area_of_the_definition() =>
        Gen.Select(Gen.Double[-3, 3], Gen.Double[0.2, 4], Gen.Double[0.2, 4], Gen.Double[-8, 8])
            .Sample(
                (median, down, up, happened) =>
                    Assert.Equal(
                        Area(median, down / Point95, up / Point95, happened),
                        RankedProbabilityScore.Halves(
                            Interval.FromPoints(median - down, median, median + up),
                            happened
                        ),
                        2e-5
                    ),
                iter: 100
            );

    [Fact]
    public void A_forecast_of_no_width_scores_how_far_it_was_off() =>
        Assert.Equal(1.5, RankedProbabilityScore.Halves(Interval.FromPoints(2, 2, 2), 3.5), 1e-12);

    [Fact]
    public void What_is_not_finite_stops_at_the_door() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            RankedProbabilityScore.Halves(Interval.FromPoints(1, 2, 3), double.NaN)
        );

    // The definition, added up in small steps (Gneiting and Raftery 2007, eq. 20).
    private static double Area(double median, double down, double up, double happened)
    {
        const double step = 0.002;
        var sum = 0.0;
        // In the middle of each, with what happened on an edge.
        for (var x = happened - 40 + (step / 2); x < happened + 40; x += step)
        {
            var z = (x - median) / (x < median ? down : up);
            var below = 0.5 * MathNet.Numerics.SpecialFunctions.Erfc(-z / Math.Sqrt(2));
            var miss = below - (x >= happened ? 1 : 0);
            sum += miss * miss * step;
        }

        return sum;
    }
}
