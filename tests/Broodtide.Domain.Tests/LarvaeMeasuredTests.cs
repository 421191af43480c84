using Broodtide.Domain.Larvae;
using Broodtide.Domain.Tests.Kit;

namespace Broodtide.Domain.Tests;

public sealed class LarvaeMeasuredTests
{
    private static readonly VesselId Jar = new(Pen.Uuid(0xe4));

    [Theory]
    [InlineData("2410", 2410, null, null)]
    [InlineData("2380..2410,5..2441", 2410.5, 2380.0, 2441.0)]
    public void A_value_is_read_as_it_is_written(string text, double middle, double? low, double? high)
    {
        var read = MeasuredValue.Read(text);
        Assert.Equal(new(middle, low, high), read);
        Assert.Equal(read, MeasuredValue.Read(read!.ToString()));
    }

    [Theory]
    [InlineData("")]
    [InlineData("long")]
    [InlineData("1..2")]
    [InlineData("-5")]
    [InlineData("1..2..3..4")]
    public void What_is_no_value_is_none(string text) => Assert.Null(MeasuredValue.Read(text));

    [Fact]
    public void What_cannot_be_is_no_entry()
    {
        Assert.Equal("measured-nothing", new LarvaeMeasured(Jar).Impossible()!.Code);
        Assert.Equal(
            "bounds-out-of-order",
            new LarvaeMeasured(Jar, [new(2000, 2100, 2200)]).Impossible()!.Code
        );
        Assert.Equal("number-impossible", new LarvaeMeasured(Jar, [new(double.NaN)]).Impossible()!.Code);
        Assert.Equal("number-impossible", new LarvaeMeasured(Jar, [new(2)]).Impossible()!.Code);
        Assert.Equal(
            "number-impossible",
            new LarvaeMeasured(Jar, SwimmingPercent: [new(80, 60, 101)]).Impossible()!.Code
        );
        Assert.Equal(
            "hash-unreadable",
            new LarvaeMeasured(Jar, [new(2000)], Picture: "photo").Impossible()!.Code
        );
        Assert.Null(new LarvaeMeasured(Jar, [new(2000)]).Impossible());
    }
}
