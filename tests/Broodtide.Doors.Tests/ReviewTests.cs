using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class ReviewTests
{
    [Fact]
    public async Task A_lost_run_tells_its_losses_its_causes_and_three_things_at_most()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var review = (await kitchen.DoAsync("review", "Brood 1", "--json")) is { Code: 0 } done
            ? done.Json
            : throw new InvalidOperationException("There is no review.");

        Assert.Equal("given-up", review.GetProperty("end").GetString());
        Assert.Equal(
            ["fresh-water", "crossing", "early", "middle", "metamorphosis", "return"],
            review.GetProperty("phases").EnumerateArray().Select(it => it.GetProperty("phase").GetString())
        );
        // The one look at the scale was the evening when it stood far beyond the band.
        var salt = review
            .GetProperty("causes")
            .EnumerateArray()
            .Single(it => it.GetProperty("cause").GetString() is "salinity");
        Assert.Equal("spoken-for", salt.GetProperty("verdict").GetString());
        Assert.InRange(review.GetProperty("differently").GetArrayLength(), 1, 3);
        Assert.All(
            review.GetProperty("causes").EnumerateArray().ToList(),
            it =>
                Assert.True(
                    it.GetProperty("verdict").GetString() is not "ruled-out"
                        || it.GetProperty("against").GetArrayLength() > 0
                )
        );
    }

    [Fact]
    public async Task A_run_that_is_not_there_is_said_to_be_unknown()
    {
        using var kitchen = await Kitchen.WithDemoAsync();

        Assert.Equal(2, (await kitchen.RunAsync("review", "Brood 77")).Code);
    }
}
