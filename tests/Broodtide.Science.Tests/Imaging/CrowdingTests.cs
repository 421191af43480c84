using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Science.Tests.Imaging;

public sealed class CrowdingTests
{
    [Fact]
    public void Far_apart_none_are_hidden() =>
        Assert.Equal(0, Crowding.ShareHidden([new(0, 0, 20), new(100, 0, 20), new(0, 100, 20)], 20));

    // Points thrown at random with a known density, those nearer than a radius told as one: what is lost is near what
    // is said, and a raised count nearer the truth than the bare one.
    [Theory]
    [InlineData(300)]
    [InlineData(900)]
    public void What_merges_is_near_what_is_said(int number)
    {
        const double radius = 4;
        var dice = new Random(2);
        var told = new List<SpotMark>();
        for (var i = 0; i < number; i++)
        {
            var (x, y) = (dice.NextDouble() * 400, dice.NextDouble() * 400);
            if (!told.Exists(t => Math.Pow(t.X - x, 2) + Math.Pow(t.Y - y, 2) < radius * radius))
            {
                told.Add(new(x, y, 50));
            }
        }

        var hidden = Crowding.ShareHidden(told, Math.PI * radius * radius);
        var raised = told.Count / (1 - hidden);
        Assert.InRange(raised, 0.96 * number, 1.04 * number);
        Assert.True(Math.Abs(raised - number) < number - told.Count);
    }
}
