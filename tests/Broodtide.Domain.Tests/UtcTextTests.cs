using System.Text;
using Broodtide.Domain.Journal;
using CsCheck;
using NodaTime;

namespace Broodtide.Domain.Tests;

public class UtcTextTests
{
    [Fact]
    public void Every_instant_of_the_common_era_is_read_back_as_it_was() =>
        Gen.Select(Gen.Long[-62135596800, 253402300799], Gen.Int[0, 999_999_999], Gen.Int[0, 9])
            .Sample(
                (seconds, nanoseconds, digits) =>
                {
                    var step = (int)Math.Pow(10, digits);
                    var instant = Instant
                        .FromUnixTimeSeconds(seconds)
                        .PlusNanoseconds(nanoseconds / step * step);
                    Assert.True(
                        UtcText.TryParse(Encoding.UTF8.GetBytes(UtcText.Format(instant)), out var read)
                    );
                    Assert.Equal(instant, read);
                }
            );

    [Theory]
    [InlineData("2026-03-01T21:05:00Z", true)]
    [InlineData("2026-03-01T21:05:00.5Z", true)]
    [InlineData("2026-03-01T21:05:00.000000001Z", true)]
    [InlineData("2024-02-29T00:00:00Z", true)]
    [InlineData("2026-02-29T00:00:00Z", false)]
    [InlineData("2026-03-01T21:05:00.50Z", false)]
    [InlineData("2026-03-01T21:05:00.Z", false)]
    [InlineData("2026-03-01T21:05:00.0000000001Z", false)]
    [InlineData("2026-03-01T24:00:00Z", false)]
    [InlineData("2026-03-01T21:60:00Z", false)]
    [InlineData("2026-03-01T21:05:60Z", false)]
    [InlineData("2026-13-01T21:05:00Z", false)]
    [InlineData("0000-01-01T00:00:00Z", false)]
    [InlineData("2026-03-01t21:05:00z", false)]
    [InlineData("2026-03-01 21:05:00Z", false)]
    [InlineData("2026-03-01T21:05Z", false)]
    [InlineData("2026-03-01T21:05:00+00:00", false)]
    [InlineData("", false)]
    [InlineData("Z", false)]
    public void Only_the_one_form_is_read(string text, bool read) =>
        Assert.Equal(read, UtcText.TryParse(Encoding.UTF8.GetBytes(text), out _));
}
