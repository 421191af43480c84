using Broodtide.Units;

namespace Broodtide.Science.Estimation;

/// <content>
/// What a sensor that stays in the water is off by: one unknown for all that it shows. It is believed jointly with the
/// water, so that a hundred readings of one sensor tell its course well and its height no better than one reading did.
/// </content>
public sealed partial class WaterSaltFilter
{
    /// <summary>Adds a sensor of salinity that is off by nobody knows how much.</summary>
    /// <param name="sd">Standard deviation of what it is off by, practical salinity; above zero.</param>
    /// <param name="wanderSd">How far that wanders in a day, practical salinity; it grows with the root of the days.</param>
    /// <returns>The sensor's number in this filter; it counts with the vessels and is none of them.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, negative or zero where it must not be.</exception>
    public int AddSensor(double sd, double wanderSd)
    {
        Finite.Positive(sd);
        Finite.NotNegative(wanderSd);
        var sensor = Count;
        _slots.Add(new Slot(default, 0, wanderSd));
        _rows.Add(_mean.Length / 3);
        Grow();
        _covariance[Off(sensor), Off(sensor)] = sd * sd;
        return sensor;
    }

    /// <summary>What a sensor is off by, practical salinity: above zero where it shows too much.</summary>
    public Expectation ExpectOffset(int sensor)
    {
        var b = Off(KnownSensor(sensor));
        return new Expectation(_mean[b], Math.Sqrt(Math.Max(0, _covariance[b, b])));
    }

    /// <summary>What a sensor would show in a vessel, without taking it in.</summary>
    public Expectation ExpectShown(int slot, int sensor)
    {
        var (value, byWater, bySalt) = SalinityOf(Known(slot));
        var (w, s, b) = (Water(slot), Salt(slot), Off(KnownSensor(sensor)));
        var variance =
            Quadratic(slot, byWater, bySalt)
            + _covariance[b, b]
            + (2 * ((byWater * _covariance[w, b]) + (bySalt * _covariance[s, b])));
        return new Expectation(value + _mean[b], Math.Sqrt(Math.Max(0, variance)));
    }

    /// <summary>Takes in what a sensor showed: of the water and of what the sensor is off by.</summary>
    /// <param name="slot">Whose water it stood in.</param>
    /// <param name="sensor">The sensor.</param>
    /// <param name="shown">What it showed, practical salinity.</param>
    /// <param name="sd">Standard deviation of what is not shared with its other readings; above zero.</param>
    public Innovation ObserveShown(int slot, int sensor, double shown, double sd)
    {
        var (value, byWater, bySalt) = SalinityOf(Known(slot));
        var b = Off(KnownSensor(sensor));
        return Observe(slot, Finite.Required(shown), value + _mean[b], sd, byWater, bySalt, b);
    }

    /// <summary>Something happened to a sensor or to its water, nobody knows which: what it is off by becomes uncertain.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="sd">Standard deviation to add, practical salinity.</param>
    public void DoubtSensor(int sensor, double sd)
    {
        var b = Off(KnownSensor(sensor));
        _covariance[b, b] += Math.Pow(Finite.NotNegative(sd), 2);
    }

    // The first of the three rows of its own; the others stay empty.
    private int Off(int sensor) => 3 * _rows[sensor];

    private int KnownSensor(int sensor) =>
        sensor >= 0 && sensor < Count && _slots[sensor].SensorWanderSd is not null
            ? sensor
            : throw new ArgumentOutOfRangeException(nameof(sensor), sensor, "No such sensor.");
}
