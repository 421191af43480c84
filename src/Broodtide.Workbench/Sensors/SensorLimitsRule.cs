using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Sensors;

/// <summary>Whether limits that somebody chose can be.</summary>
public static class SensorLimitsRule
{
    private const double MostSeconds = 7 * 86_400;

    /// <summary>Why they cannot be; none where they can.</summary>
    /// <param name="limits">The limits.</param>
    /// <param name="unit">The sensor's unit, a code of the journal's list.</param>
    public static Remark? WrongOf(SensorLimits limits, string unit)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var allowed =
            UnitCode.Find(unit) ?? throw new ArgumentException("No unit of the list.", nameof(unit));
        return (limits.Low is { } low && !allowed.Allows(low))
            || (limits.High is { } high && !allowed.Allows(high))
                ? new Remark(
                    "sensor-limit-impossible",
                    new("lowest", allowed.Lowest),
                    new("highest", allowed.Highest)
                )
            : limits is { Low: { } least, High: { } most } && least + limits.Hysteresis >= most
                ? new Remark("sensor-limits-cross")
            : !(limits.Hysteresis >= 0 && double.IsFinite(limits.Hysteresis))
                ? new Remark("sensor-hysteresis-wrong")
            : !(limits.HoldSeconds is >= 0 and <= MostSeconds)
            || limits.SilentSeconds is < 60 or > MostSeconds
                ? new Remark("sensor-times-wrong")
            : null;
    }
}
