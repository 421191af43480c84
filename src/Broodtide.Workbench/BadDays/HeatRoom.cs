using Broodtide.Science.Heat;
using Broodtide.Units;

namespace Broodtide.Workbench.BadDays;

/// <summary>The room of hot days: as it was said, else as it was read; and what may be said.</summary>
internal static class HeatRoom
{
    // Between day and night where only the hottest is told: this project's estimate.
    private const double UsualRange = 6;

    public static RoomCourse? Of(RoomTold told, HeatWishes wishes)
    {
        if (wishes.HottestCelsius is not { } hottest)
        {
            return told.Course;
        }

        var coolest =
            wishes.CoolestCelsius
            ?? (
                told.Course is { } known
                    ? Math.Min(hottest, known.MiddleCelsius - known.SwingCelsius)
                    : hottest - UsualRange
            );
        return RoomCourse.Between(coolest, hottest);
    }

    public static Remark? Refusal(HeatWishes wishes) =>
        wishes.HottestCelsius is not (null or (>= 0 and <= 50))
        || wishes.CoolestCelsius is not (null or (>= -10 and <= 50))
        || wishes.CoolestCelsius > (wishes.HottestCelsius ?? 50)
            ? new Remark("badday-room-impossible")
        : wishes.FanMetresPerSecond is not (>= 0 and <= 10) ? new Remark("badday-fan-impossible")
        : wishes.RelativeHumidity is not (>= 0 and <= 1) ? new Remark("badday-humidity-impossible")
        : wishes.Hours is < 6 or > 120 ? new Remark("badday-hours-impossible")
        : null;
}
