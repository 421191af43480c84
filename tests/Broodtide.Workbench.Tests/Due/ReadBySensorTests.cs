using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Tests.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Due;

/// <summary>A temperature that a sensor reads is asked for by hand less often, and never not at all.</summary>
public sealed class ReadBySensorTests
{
    private static readonly Instant Now = At(6, 7, 12);

    private static bool IsAsked(string unit, Instant heard, Instant now, Guid? vessel = null)
    {
        var told = new SensorsSeen(
            now.ToUnixTimeMilliseconds(),
            [
                new(
                    "shelf-1/water",
                    null,
                    unit,
                    vessel ?? Jar.Value,
                    WasPlaced: true,
                    heard.ToUnixTimeMilliseconds(),
                    24,
                    null,
                    null,
                    OwnLimits: false,
                    [],
                    []
                )
                {
                    Means = [new(heard.ToUnixTimeMilliseconds(), 24, 0.1, 6, vessel ?? Jar.Value)],
                },
            ],
            [],
            null,
            false,
            new Dictionary<string, long>()
        );
        return Outlook
            .Of(Journal().Account(), now, DateTimeZone.Utc, sensors: told)
            .Due.Items.Any(item =>
                item.Action.Code == ActionCodes.ReadTemperature && item.Action.About == Subject.Of(Jar)
            );
    }

    // Read by hand on the day before the present.
    private static KeptJournal Journal() =>
        BackwardPlanTests.InTheSea().Write(At(6, 6, 12), new ReadingTaken(TypedNumber.Of(24, "Cel"), Jar));

    [Fact]
    public void It_is_not_asked_for_daily_while_the_sensor_is_heard()
    {
        Assert.False(IsAsked("Cel", Now - Duration.FromHours(3), Now));
        // Another vessel's sensor, another quantity and a sensor that fell silent read nothing of this water.
        Assert.True(IsAsked("Cel", Now - Duration.FromHours(3), Now, Box.Value));
        Assert.True(IsAsked("pH", Now - Duration.FromHours(3), Now));
        Assert.True(IsAsked("Cel", Now - Duration.FromHours(13), Now));
    }

    [Theory]
    [InlineData(6, false)]
    [InlineData(7, true)]
    public void A_reading_by_hand_is_asked_for_once_the_last_is_old(int days, bool isAsked)
    {
        var now = At(6, 6, 12) + Duration.FromDays(days);
        Assert.Equal(isAsked, IsAsked("Cel", now - Duration.FromHours(3), now));
    }
}
