using Broodtide.Science.Counting;
using Broodtide.Units;
using Broodtide.Workbench.Looking;
using CsCheck;

namespace Broodtide.Workbench.Tests.Looking;

public sealed class SampleSpreadTests
{
    private static SampleSpread Of(params ReadOnlySpan<int> seen)
    {
        var samples = new List<(int, Volume)>();
        foreach (var number in seen)
        {
            samples.Add((number, Volume.FromMillilitres(250)));
        }

        return SampleSpread.Of(samples)!;
    }

    [Fact]
    public void Three_samples_follow_the_exponential_that_chi_square_with_two_degrees_of_freedom_is()
    {
        // 4, 2 and 5 about 11/3: index 14/11, and the tail of chi-square with 2 degrees of freedom is exp(-x/2).
        var spread = Of(4, 2, 5);

        Assert.Equal(Math.Exp(-7.0 / 11), spread.ByChance.Value, 1e-12);
        Assert.Equal(Apart.AsChance, spread.Apart);
        Assert.Equal(11, spread.Seen);
        Assert.Equal(11 / 0.75, spread.PerLitre, 1e-12);
        Assert.Equal((8, 20), (spread.LeastPerLitre, spread.MostPerLitre));
    }

    [Fact]
    public void Two_samples_have_the_tail_of_the_printed_table()
    {
        // 8 and 18: index (8-18)^2/26 = 3.846; the table's 5 % point for one degree of freedom is 3.841.
        Assert.Equal(0.05, Of(8, 18).ByChance.Value, 5e-4);
        Assert.Equal(Apart.AsChance, Of(8, 18).Apart);
        // 8 and 20: 5.143; the table's 2.5 % point is 5.024.
        Assert.Equal(Apart.Wider, Of(8, 20).Apart);
    }

    [Fact]
    public void What_is_expected_is_in_proportion_to_volume()
    {
        var even = SampleSpread.Of([(5, Volume.FromMillilitres(250)), (20, Volume.FromLitres(1))])!;

        Assert.Equal(1, even.ByChance.Value, 1e-12);
        Assert.Equal(20, even.PerLitre, 1e-12);
    }

    [Fact]
    public void With_too_few_seen_nothing_is_said_of_chance()
    {
        Assert.Equal(Apart.TooFew, Of(0, 0, 0).Apart);
        Assert.Equal(Apart.TooFew, Of(1, 0).Apart);
        Assert.Null(SampleSpread.Of([(5, Volume.FromLitres(1))]));
        Assert.Null(SampleSpread.Of([]));
    }

    [Fact]
    public void Numbers_that_cannot_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSpread.Of([(-1, Volume.FromLitres(1))]));
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSpread.Of([(1, default)]));
    }

    [Fact]
    public void Evenly_stirred_water_is_called_clumped_about_as_often_as_is_said()
    {
        // Poisson counts of mean 12 in four samples, from a generator of their own: one count in forty.
        var random = new Random(20260520);
        var wider = 0;
        const int Times = 4000;
        for (var time = 0; time < Times; time++)
        {
            wider +=
                Of(Poisson(random), Poisson(random), Poisson(random), Poisson(random)).Apart is Apart.Wider
                    ? 1
                    : 0;
        }

        Assert.InRange(wider / (double)Times, 0.017, 0.034);
    }

    [Fact]
    public void In_one_volume_it_is_the_index_of_dispersion() =>
        Gen.Int[0, 5000]
            .Array[2, 12]
            .Where(seen => seen.Sum() > 0)
            .Sample(seen =>
                Assert.Equal(Dispersion.Of(seen).ClumpedChance.Value, Of(seen).ByChance.Value, 1e-9)
            );

    [Fact]
    public void Every_row_of_samples_has_a_comparison() =>
        Gen.Select(Gen.Int[0, 5000], Gen.Double[0.001, 60])
            .Array[2, 12]
            .Sample(rows =>
            {
                var spread = SampleSpread.Of([
                    .. rows.Select(row => (row.Item1, Volume.FromLitres(row.Item2))),
                ])!;
                return spread.LeastPerLitre <= spread.PerLitre + 1e-9
                    && spread.PerLitre <= spread.MostPerLitre + 1e-9
                    && spread.ByChance.Value is >= 0 and <= 1;
            });

    private static int Poisson(Random random)
    {
        var (number, product, end) = (0, random.NextDouble(), Math.Exp(-12));
        while (product > end)
        {
            number++;
            product *= random.NextDouble();
        }

        return number;
    }
}
