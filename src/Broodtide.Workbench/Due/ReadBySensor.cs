using Broodtide.Domain.Journal;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>
/// Whether a sensor reads the temperature that a keeper would be asked to read every day. By hand it is then asked for once a
/// week, never not at all: only a reading by hand tells what the sensor is off by. Salinity stays asked for daily: its probes
/// are overgrown within days.
/// </summary>
internal static class ReadBySensor
{
    // Practice, no source.
    private static readonly Duration ByHand = Duration.FromDays(7);

    // The means are of six hours; one that is older says that the sensor is silent or was taken away.
    private static readonly Duration Heard = Duration.FromHours(12);

    public static bool Is(PlannedAction action, IReadOnlyList<WaterMean> means, Instant now) =>
        string.Equals(action.Code, ActionCodes.ReadTemperature, StringComparison.Ordinal)
        && action.Reason["last"] is Instant last
        && now < last + ByHand
        && means.Any(mean =>
            mean.Dimension is Dimension.Temperature
            && Subject.Of(mean.Vessel) == action.About
            && mean.At <= now
            && now - mean.At <= Heard
        );
}
