using Broodtide.Phone.Keeping;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Browser.Tests.Parts;

public sealed class MeetingTimesTests
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 5, 20, 12, 0);

    [Fact]
    public void A_visit_asks_a_server_that_was_never_asked() => Assert.True(new MeetingTimes().MayAsk(Noon));

    [Fact]
    public void A_server_that_was_away_is_left_alone_longer_and_longer_but_not_for_good()
    {
        var times = new MeetingTimes();
        var waits = new List<Duration>();
        var now = Noon;
        for (var meeting = 0; meeting < 10; meeting++)
        {
            times.Met(Meeting.Away, now);
            var wait = Duration.Zero;
            while (!times.MayAsk(now + wait))
            {
                wait += Duration.FromMinutes(1);
            }

            waits.Add(wait);
            now += wait;
        }

        Assert.Equal(waits.Order(), waits);
        Assert.Equal(Duration.FromMinutes(2), waits[0]);
        Assert.Equal(Duration.FromMinutes(30), waits[^1]);
    }

    [Fact]
    public void One_meeting_that_goes_well_makes_up_for_all_that_did_not()
    {
        var times = new MeetingTimes();
        for (var meeting = 0; meeting < 10; meeting++)
        {
            times.Met(Meeting.Away, Noon);
        }

        times.Met(Meeting.Agreed, Noon);
        Assert.True(times.MayAsk(Noon + Duration.FromMinutes(1)));
    }
}
