using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>
/// Temperatures that were read in a vessel, by hand or by a sensor, with straight lines between those of two days.
/// </summary>
internal sealed class Warmth
{
    private static readonly Duration Longest = Duration.FromHours(36);
    private readonly List<(Instant At, double Celsius)> _read = [];
    private readonly double _usual;

    public Warmth(
        IReadOnlyList<Occurrence> told,
        VesselLedger ledger,
        Instant start,
        IReadOnlyList<WaterMean> means
    )
    {
        _usual = ledger.Temperature.Celsius;
        foreach (var occurrence in told)
        {
            var shown = occurrence.Fact switch
            {
                ReadingTaken reading => reading.Value.AsTemperature(),
                Domain.Vessels.VesselFilled filled => filled.Temperature.AsTemperature(),
                _ => null,
            };
            if (shown is { Celsius: > -2 and < 45 } temperature)
            {
                _read.Add((occurrence.Happened.Middle, temperature.Celsius));
            }
        }

        _read.Sort((left, right) => left.At.CompareTo(right.At));
        var (shownBySensor, used) = SensorWarmth.Of(means, ledger.Vessel, _read);
        if (shownBySensor.Count > 0)
        {
            // What was read by hand beside a sensor has set it right and counts no second time.
            _read.RemoveAll(read => used.Contains(read.At));
            _read.AddRange(shownBySensor);
            _read.Sort((left, right) => left.At.CompareTo(right.At));
        }

        IsRead = _read.Count > 0 && _read[^1].At >= start - Longest;
    }

    public bool IsRead { get; }

    public Temperature At(Instant at)
    {
        var (next, high) = (0, _read.Count);
        while (next < high)
        {
            var middle = (next + high) / 2;
            (next, high) = _read[middle].At <= at ? (middle + 1, high) : (next, middle);
        }

        if (next == 0)
        {
            return Temperature.FromCelsius(_read.Count == 0 ? _usual : _read[0].Celsius);
        }

        var before = _read[next - 1];
        if (next == _read.Count || _read[next].At - before.At > Longest)
        {
            return Temperature.FromCelsius(before.Celsius);
        }

        var share = (at - before.At).TotalHours / (_read[next].At - before.At).TotalHours;
        return Temperature.FromCelsius(before.Celsius + (share * (_read[next].Celsius - before.Celsius)));
    }
}
