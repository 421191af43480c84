using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Tests.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Due;

/// <summary>What a sensor reads, a keeper is asked to read by hand less often, and never not at all.</summary>
public sealed class ReadBySensorTests
{
    private static readonly Instant Now = At(6, 7, 12);

    private static bool IsAsked(string code, string unit, Instant heard, Instant now, Guid? vessel = null)
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
            .Due.Items.Any(item => item.Action.Code == code && item.Action.About == Subject.Of(Jar));
    }

    // Read by hand on the day before the present.
    private static KeptJournal Journal() =>
        BackwardPlanTests
            .InTheSea()
            .Write(At(6, 6, 12), new ReadingTaken(TypedNumber.Of(24, "Cel"), Jar))
            .Write(At(6, 6, 12), new ReadingTaken(TypedNumber.Of(30, "sal:practical"), Jar));

    [Theory]
    [InlineData(ActionCodes.ReadTemperature, "Cel")]
    [InlineData(ActionCodes.ReadSalinity, "sal:practical")]
    public void It_is_not_asked_for_daily_while_the_sensor_is_heard(string code, string unit)
    {
        Assert.False(IsAsked(code, unit, Now - Duration.FromHours(3), Now));
        // Another vessel's sensor, another quantity and a sensor that fell silent read nothing of this water.
        Assert.True(IsAsked(code, unit, Now - Duration.FromHours(3), Now, Box.Value));
        Assert.True(IsAsked(code, "pH", Now - Duration.FromHours(3), Now));
        Assert.True(IsAsked(code, unit, Now - Duration.FromHours(13), Now));
    }

    [Theory]
    [InlineData(ActionCodes.ReadTemperature, "Cel", 6, 7)]
    [InlineData(ActionCodes.ReadSalinity, "sal:practical", 2, 3)]
    public void A_reading_by_hand_is_asked_for_once_the_last_is_old(
        string code,
        string unit,
        int quiet,
        int asked
    )
    {
        foreach (var (days, isAsked) in new[] { (quiet, false), (asked, true) })
        {
            var now = At(6, 6, 12) + Duration.FromDays(days);
            Assert.Equal(isAsked, IsAsked(code, unit, now - Duration.FromHours(3), now));
        }
    }
}
