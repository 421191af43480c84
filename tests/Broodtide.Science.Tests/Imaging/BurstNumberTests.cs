using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Science.Tests.Imaging;

public sealed class BurstNumberTests
{
    private static readonly BurstNumber Clear = new(3, 3, 0, 0, 120, 0, false);

    [Fact]
    public void A_few_clear_ones_are_told_to_one_or_two()
    {
        var number = Clear.Number();
        Assert.Equal(3, number.Middle, 0.3);
        Assert.InRange(number.Low, 2, 3);
        Assert.InRange(number.High, 4, 5);
    }

    [Fact]
    public void The_ends_are_whole_larvae()
    {
        for (var n = 0; n < 200; n += 7)
        {
            var number = (Clear with { Middle = n, Mean = n }).Number();
            Assert.Equal(Math.Round(number.Low), number.Low);
            Assert.Equal(Math.Round(number.High), number.High);
            Assert.InRange(number.Middle, number.Low, number.High);
        }
    }

    [Fact]
    public void None_marked_may_be_two() =>
        Assert.Equal(2, (Clear with { Middle = 0, Mean = 0 }).Number().High);

    [Fact]
    public void Whatever_speaks_against_the_count_widens_it()
    {
        var many = Clear with { Middle = 60, Mean = 60, Between = 9 };
        var plain = many.Number();
        Assert.True((many with { Between = 200 }).Number().Width > plain.Width);
        Assert.True((many with { IsTooBright = true }).Number().Width > plain.Width);
        Assert.True((many with { Area = 40 }).Number().Width > plain.Width);
        var doubtful = (many with { Doubtful = 30 }).Number();
        Assert.True(doubtful.High > plain.High);
        Assert.Equal(plain.Low, doubtful.Low);
    }

    [Fact]
    public void What_is_hidden_or_small_raises_the_number()
    {
        var many = Clear with { Middle = 60, Mean = 60 };
        Assert.True((many with { Hidden = 0.2 }).Number().Middle > 1.2 * many.Number().Middle);
        Assert.True((many with { Area = 40 }).Number().Middle > 1.2 * many.Number().Middle);
    }
}
