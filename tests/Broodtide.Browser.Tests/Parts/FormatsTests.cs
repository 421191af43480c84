using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Units;
using Duration = NodaTime.Duration;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Browser.Tests.Parts;

public sealed class FormatsTests
{
    private static readonly Formats Metric = new(new Preferences(), Words.English(), new PhoneClock());

    [Theory]
    [InlineData(33.64, 1, "33.6")]
    [InlineData(-0.04, 1, "0.0")]
    [InlineData(-1.5, 1, "−1.5")]
    [InlineData(1234, 0, "1234")]
    [InlineData(12345.6, 1, "12\u202f345.6")]
    [InlineData(1234567, 0, "1\u202f234\u202f567")]
    public void A_number_has_its_decimals_and_parted_thousands(double value, int decimals, string text) =>
        Assert.Equal(text, Metric.Number(value, decimals));

    [Theory]
    [InlineData(190, 2, "190")]
    [InlineData(3.94, 2, "3.94")]
    [InlineData(4.0, 1, "4")]
    [InlineData(1.5, 1, "1.5")]
    public void A_plain_number_ends_in_no_zeros(double value, int decimals, string text) =>
        Assert.Equal(text, Metric.Plain(value, decimals));

    [Theory]
    [InlineData(79, 118, 161, "118 (79–161)")]
    [InlineData(33.31, 33.62, 33.93, "33.6 (33.3–33.9)")]
    [InlineData(5, 5, 5, "5.0")]
    public void An_interval_shows_no_more_digits_than_it_earns(
        double low,
        double middle,
        double high,
        string text
    ) => Assert.Equal(text, Metric.Sentence(Interval.FromPoints(low, middle, high)));

    [Fact]
    public void An_interval_is_spoken_whole() =>
        Assert.Equal(
            "about 118; nine in ten sure it is between 79 and 161",
            Metric.Spoken(Interval.FromPoints(79, 118, 161))
        );

    [Fact]
    public void Amounts_take_the_unit_that_fits()
    {
        Assert.Equal("190\u202fmL", Metric.Amount(Volume.FromLitres(0.19)));
        Assert.Equal("3.94\u202fL", Metric.Amount(Volume.FromLitres(3.94)));
        Assert.Equal("143\u202fg", Metric.Amount(Mass.FromGrams(143.2)));
        Assert.Equal("1.2\u202fkg", Metric.Amount(Mass.FromGrams(1200)));
    }

    [Theory]
    [InlineData(0.04, "4\u202f%")]
    [InlineData(0.004, "0.4\u202f%")]
    [InlineData(0.0001, "under 0.1\u202f%")]
    [InlineData(0.9999, "over 99.9\u202f%")]
    [InlineData(0, "0\u202f%")]
    public void A_small_share_is_never_told_as_none(double share, string text) =>
        Assert.Equal(text, Metric.Share(Probability.FromFraction(share)));

    [Theory]
    [InlineData(102000, "1:42")]
    [InlineData(101001, "1:42")]
    [InlineData(1, "0:01")]
    [InlineData(0, "0:00")]
    [InlineData(3750000, "1:02:30")]
    public void A_countdown_shows_a_begun_second(long milliseconds, string text) =>
        Assert.Equal(text, Formats.Countdown(Duration.FromMilliseconds(milliseconds)));
}
