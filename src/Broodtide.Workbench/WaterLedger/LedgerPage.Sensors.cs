using Broodtide.Science.Estimation;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.WaterLedger;

/// <content>What a sensor shows of the fill.</content>
internal sealed partial class LedgerPage
{
    private readonly Dictionary<string, SensorInLedger> _sensors = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (Instant At, double OffPpt)> _jumped = new(StringComparer.Ordinal);

    /// <summary>
    /// Takes in what a sensor showed. Where it does not fit, the water may have been changed or the sensor moved: nobody knows,
    /// so what it is off by becomes uncertain by the gap, and a reading by hand is asked for.
    /// </summary>
    public void Hear(
        WaterSaltFilter filter,
        LedgerErrors errors,
        int sensor,
        WaterMean mean,
        double shownPpt,
        double sd
    )
    {
        var expected = filter.ExpectShown(Slot, sensor);
        var off = shownPpt - expected.Mean;
        if (Math.Abs(off) > errors.MisfitSurprise * Math.Sqrt((expected.Sd * expected.Sd) + (sd * sd)))
        {
            filter.DoubtSensor(sensor, Math.Abs(off));
            _jumped[mean.Sensor] = (mean.At, off);
        }

        filter.ObserveShown(Slot, sensor, shownPpt, sd);
        var its = filter.ExpectOffset(sensor);
        _sensors[mean.Sensor] = new(
            mean.Sensor,
            _sensors.GetValueOrDefault(mean.Sensor)?.Count + 1 ?? 1,
            mean.At,
            // It may lie under zero, which an amount may not.
            Interval.FromNormal(its.Mean, its.Sd)
        );
        Draw(mean.At, filter, Slot);
    }

    private IEnumerable<Remark> Jumps() =>
        _jumped
            .OrderBy(jumped => jumped.Key, StringComparer.Ordinal)
            .Select(jumped => new Remark(
                "sensor-jumped",
                new("sensor", jumped.Key),
                new("since", jumped.Value.At),
                new("offPpt", jumped.Value.OffPpt)
            ));
}
