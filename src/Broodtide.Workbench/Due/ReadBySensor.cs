using Broodtide.Domain.Journal;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>
/// Whether a sensor reads what a keeper would be asked to read every day. By hand it is then asked for less often, never not
/// at all: only a reading by hand tells what the sensor is off by.
/// </summary>
internal static class ReadBySensor
{
    // Practice, no source: a probe of temperature hardly wanders; one of salinity is overgrown within days.
    private static readonly Duration TemperatureByHand = Duration.FromDays(7);
    private static readonly Duration SalinityByHand = Duration.FromDays(3);

    // The means are of six hours; one that is older says that the sensor is silent or was taken away.
    private static readonly Duration Heard = Duration.FromHours(12);

    public static bool Is(PlannedAction action, IReadOnlyList<WaterMean> means, Instant now)
    {
        var (dimension, byHand) = action.Code switch
        {
            ActionCodes.ReadTemperature => (Dimension.Temperature, TemperatureByHand),
            ActionCodes.ReadSalinity => (Dimension.Salinity, SalinityByHand),
            _ => ((Dimension?)null, Duration.Zero),
        };
        return dimension is not null
            && action.Reason["last"] is Instant last
            && now < last + byHand
            && means.Any(mean =>
                mean.Dimension == dimension
                && Subject.Of(mean.Vessel) == action.About
                && mean.At <= now
                && now - mean.At <= Heard
            );
    }
}
