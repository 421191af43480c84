using Broodtide.Phone.Keeping;
using NodaTime;

namespace Broodtide.Browser.Tests.Parts;

public sealed class HouseClockPartTests
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 5, 20, 12, 0);
    private readonly Dictionary<string, string?> _kept = [];

    private HouseClock New() =>
        new(
            name => _kept.GetValueOrDefault(name),
            (name, text) =>
            {
                _kept[name] = text;
                return true;
            }
        );

    [Theory]
    [InlineData(0, 0)]
    [InlineData(9, 0)]
    [InlineData(-9, 0)]
    [InlineData(11, 11)]
    [InlineData(-2880, -2880)]
    public void More_than_ten_minutes_are_told_and_less_is_not(int minutesAhead, int told)
    {
        var clock = New();
        var phone = Noon + Duration.FromMinutes(minutesAhead);
        clock.Heard(Noon, phone, phone + Duration.FromMilliseconds(200));
        Assert.Equal(Duration.FromMinutes(told), clock.Off);
        Assert.Equal(clock.Off, New().Off);
    }

    [Fact]
    public void An_answer_that_was_long_on_its_way_leaves_what_is_believed_where_it_could_be_either()
    {
        var clock = New();
        clock.Heard(Noon, Noon - Duration.FromDays(2), Noon - Duration.FromDays(2));
        clock.Heard(Noon, Noon, Noon + Duration.FromMinutes(20));
        Assert.Equal(Duration.FromDays(-2), clock.Off);
        clock.Heard(Noon, Noon, Noon + Duration.FromSeconds(1));
        Assert.Equal(Duration.Zero, clock.Off);
    }

    [Fact]
    public void A_clock_that_was_set_while_the_answer_came_tells_nothing()
    {
        var clock = New();
        clock.Heard(Noon, Noon + Duration.FromDays(3), Noon);
        Assert.Equal(Duration.Zero, clock.Off);
    }

    [Fact]
    public void Entries_written_while_it_was_off_are_known_afterwards_and_no_others()
    {
        var clock = New();
        clock.Wrote(Noon - Duration.FromDays(3));
        var then = Noon - Duration.FromDays(2);
        clock.Heard(Noon, then, then);
        clock.Wrote(then);
        clock.Wrote(then + Duration.FromHours(1));
        clock.Heard(Noon + Duration.FromHours(2), Noon + Duration.FromHours(2), Noon + Duration.FromHours(2));
        clock.Wrote(Noon + Duration.FromHours(3));

        var again = New();
        Assert.Equal(Duration.FromDays(-2), again.OffAt(then + Duration.FromMinutes(30)));
        Assert.Equal(Duration.Zero, again.OffAt(Noon - Duration.FromDays(3)));
        Assert.Equal(Duration.Zero, again.OffAt(Noon + Duration.FromHours(3)));
    }
}
