using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <content>
/// What sensors showed, between what happened. It is no entry: it moves the water and what each sensor is off by, and writes no
/// row.
/// </content>
internal sealed partial class LedgerTelling
{
    private readonly List<WaterMean> _heard = [];
    private readonly Dictionary<string, int> _sensors = new(StringComparer.Ordinal);

    // Whether what was heard is the beginning of what is heard now, and what follows comes after all that was told.
    private bool HearsOn(LedgerScene scene)
    {
        if (scene.Means.Count < _heard.Count)
        {
            return false;
        }

        for (var at = 0; at < _heard.Count; at++)
        {
            if (_heard[at] != scene.Means[at])
            {
                return false;
            }
        }

        return _heard.Count == scene.Means.Count || scene.Means[_heard.Count].At >= _latest;
    }

    private void HearUntil(Instant until)
    {
        while (
            _heard.Count < _scene.Means.Count
            && _scene.Means[_heard.Count] is var mean
            && mean.At <= until
            && mean.At <= _scene.Now
        )
        {
            _heard.Add(mean);
            _latest = Instant.Max(_latest, mean.At);
            if (_pages.Begun(mean.Vessel, mean.At) is { Ended: false } page)
            {
                Advance(mean.At);
                Hear(page, mean);
            }
        }
    }

    private void Hear(LedgerPage page, WaterMean mean)
    {
        if (mean.AsTemperature() is { } temperature)
        {
            page.Temperature = temperature;
            _filter.SetTemperature(page.Slot, temperature);
        }
        else if (
            mean.Dimension is Dimension.Salinity
            && Shown(page, mean, mean.Value) is { } shown
            && Shown(page, mean, mean.Value + mean.Spread) is { } beside
        )
        {
            if (!_sensors.TryGetValue(mean.Sensor, out var sensor))
            {
                _sensors[mean.Sensor] = sensor = _filter.AddSensor(
                    errors.SensorOffsetSd,
                    errors.SensorWanderSd
                );
            }

            var spread = beside - shown;
            var sd = Math.Sqrt((errors.SensorLeastSd * errors.SensorLeastSd) + (spread * spread));
            page.Hear(_filter, errors, sensor, mean, shown, sd);
        }
    }

    private double? Shown(LedgerPage page, WaterMean mean, double value) =>
        double.IsFinite(value)
            ? _scene.Meaning.Of(TypedNumber.Of(value, mean.Unit), page.Temperature)?.Salinity.Practical
            : null;
}
