using Broodtide.Phone.Reminding;

namespace Broodtide.Phone.Tests.Reminding;

public sealed class MannerTests
{
    [Theory]
    [InlineData("metric.hours24.point.23:00-07:00")]
    [InlineData("us.hours12.comma.22:30-06:15")]
    public void A_manner_reads_back_as_it_was_written(string text) =>
        Assert.Equal(text, Manner.Read(text).ToString());

    [Theory]
    [InlineData("")]
    [InlineData("9.9.9.9")]
    [InlineData("metric.hours99")]
    public void A_manner_that_is_not_understood_is_the_usual_one(string text) =>
        Assert.Equal("metric.hours24.point.23:00-07:00", Manner.Read(text).ToString());
}
