using Broodtide.Science.Counting;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using CsCheck;

namespace Broodtide.Workbench.Tests.Population;

public sealed class AliquotAdviceTests
{
    private static readonly Volume TenLitres = Volume.FromLitres(10);

    private static AliquotSeen[] Of(params int[] counts) =>
        [.. counts.Select(count => new AliquotSeen(count, Volume.FromMillilitres(20)))];

    [Fact]
    public void Twice_as_many_narrow_at_least_as_much_as_twice_as_big() =>
        Gen.Int[0, 80]
            .Array[1, 10]
            .Where(counts => counts.Sum() > 0)
            .Sample(counts =>
            {
                var advice = AliquotAdvices.Of(Of(counts), TenLitres);
                Assert.True(advice.CvOfTwiceAsMany <= advice.CvOfTwiceAsBig);
                Assert.True(advice.CvOfTwiceAsBig < advice.Cv);
                Assert.True(advice.Larvae.Contains(Math.Round(advice.Estimate)));
                Assert.Equal("aliquots-more-narrow-most", advice.Remarks[0].Code);
            });

    [Fact]
    public void The_promise_of_twice_as_many_is_kept()
    {
        // The same counts twice: the interval narrows by about the ratio that was foretold.
        var once = AliquotAdvices.Of(Of(12, 15, 9, 20), TenLitres);
        var twice = AliquotAdvices.Of(Of(12, 15, 9, 20, 12, 15, 9, 20), TenLitres);
        var foretold = once.CvOfTwiceAsMany!.Value / once.Cv!.Value;
        Assert.Equal(foretold, twice.Larvae.Width / once.Larvae.Width, 0.15);
    }

    [Fact]
    public void Evenly_mixed_water_does_not_care_for_the_size_of_aliquots()
    {
        var advice = AliquotAdvices.Of(Of(12, 15, 9), TenLitres, ClumpingPrior.EvenlyMixed);
        Assert.Equal(advice.CvOfTwiceAsBig!.Value, advice.CvOfTwiceAsMany!.Value, 1e-12);
        Assert.Equal("aliquots-water-narrows", Assert.Single(advice.Remarks).Code);
        Assert.Null(advice.Clumping);
    }

    [Fact]
    public void Clumps_and_rounding_are_pointed_out()
    {
        Assert.Contains(
            AliquotAdvices.Of(Of(3, 21, 8, 0, 17, 11, 2, 26), TenLitres).Remarks,
            remark => remark.Code == "aliquots-clumped"
        );
        Assert.Contains(
            AliquotAdvices.Of(Of(30, 28, 31, 29, 30, 30), TenLitres).Remarks,
            remark => remark.Code == "aliquots-too-regular"
        );
    }

    [Fact]
    public void Aliquots_of_unequal_volume_have_no_dispersion_and_none_seen_no_precision()
    {
        var unequal = AliquotAdvices.Of(
            [new(12, Volume.FromMillilitres(20)), new(30, Volume.FromMillilitres(50))],
            TenLitres
        );
        Assert.Null(unequal.Dispersion);
        var none = AliquotAdvices.Of(Of(0, 0, 0), TenLitres);
        Assert.Null(none.Cv);
        Assert.Equal("count-none-seen", Assert.Single(none.Remarks).Code);
        Assert.True(none.Larvae.High > 0);
    }
}
