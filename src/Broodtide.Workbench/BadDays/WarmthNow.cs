using Broodtide.Science.Heat;

namespace Broodtide.Workbench.BadDays;

/// <summary>How warm a vessel is now, where its last reading is old.</summary>
internal static class WarmthNow
{
    // A reading older than this says nothing of now: this project's choice.
    private const double StaleHours = 72;

    /// <summary>Warmth of a vessel now, from its last reading run on through the room where that was read; and whether it was read at all.</summary>
    public static (double Celsius, bool IsRead) Of(
        RoomTold told,
        IReadOnlyList<TimedCelsius> read,
        RoomCourse? known,
        RoomCourse supposed,
        CoolingBelief cooling,
        double? heater,
        double? lastKnown = null
    )
    {
        var room = known ?? supposed;
        var (tau, offset) = (cooling.TimeConstantHours.Middle, cooling.OffsetCelsius.Middle);
        var now = told.HoursOf(told.Now);
        if (read.Count == 0 || now - read[^1].Hours > StaleHours)
        {
            // A hot day that is only expected says nothing of the water now.
            return (
                Math.Max(
                    known is null && lastKnown is { } written ? written : room.At(now) + offset,
                    heater ?? double.MinValue
                ),
                false
            );
        }

        var (celsius, hours) = (read[^1].Celsius, read[^1].Hours);
        if (known is null)
        {
            return (celsius, true);
        }

        while (hours < now - 0.01)
        {
            var step = Math.Min(1, now - hours);
            celsius = Math.Max(
                CoolingBelief.After(celsius, room.At(hours), room.At(hours + step), step, tau, offset),
                heater ?? double.MinValue
            );
            hours += step;
        }

        return (celsius, true);
    }
}
