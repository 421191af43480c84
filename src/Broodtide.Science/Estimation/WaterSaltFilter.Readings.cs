using Broodtide.Units;

namespace Broodtide.Science.Estimation;

/// <content>What readings would say, and how they are taken in.</content>
public sealed partial class WaterSaltFilter
{
    /// <summary>What a salinity reading would say against the ledger, without taking it in.</summary>
    public Expectation ExpectSalinity(int slot)
    {
        var (value, gradientWater, gradientSalt) = SalinityOf(Known(slot));
        return new Expectation(value, Math.Sqrt(Math.Max(0, Quadratic(slot, gradientWater, gradientSalt))));
    }

    /// <summary>What a volume reading would say against the ledger, without taking it in. Litres.</summary>
    public Expectation ExpectVolume(int slot)
    {
        var perKg = 1 / Density(Known(slot));
        return new Expectation(
            (_mean[Water(slot)] + _mean[Salt(slot)]) * perKg,
            Math.Sqrt(Math.Max(0, Quadratic(slot, perKg, perKg)))
        );
    }

    /// <summary>What the ledger says of evaporation, kg (litres of fresh water) a day.</summary>
    public Expectation ExpectEvaporation(int slot)
    {
        var e = Evaporation(Known(slot));
        return new Expectation(Math.Max(0, _mean[e]), Math.Sqrt(Math.Max(0, _covariance[e, e])));
    }

    /// <summary>The salt in a vessel, grams.</summary>
    public Expectation ExpectSaltGrams(int slot)
    {
        var s = Salt(Known(slot));
        return new Expectation(1000 * _mean[s], 1000 * Math.Sqrt(Math.Max(0, _covariance[s, s])));
    }

    /// <summary>Takes a salinity reading in.</summary>
    /// <param name="slot">Whose water it was.</param>
    /// <param name="salinity">What it means, after the instrument's corrections.</param>
    /// <param name="sd">Its standard deviation; above zero.</param>
    public Innovation ObserveSalinity(int slot, Salinity salinity, double sd)
    {
        var (value, gradientWater, gradientSalt) = SalinityOf(Known(slot));
        return Observe(slot, salinity.Practical, value, sd, gradientWater, gradientSalt);
    }

    /// <summary>Takes a volume reading in.</summary>
    /// <param name="slot">Whose water it was.</param>
    /// <param name="volume">What was read.</param>
    /// <param name="sdLitres">Its standard deviation, litres; above zero.</param>
    public Innovation ObserveVolume(int slot, Volume volume, double sdLitres)
    {
        var perKg = 1 / Density(Known(slot));
        var expected = (_mean[Water(slot)] + _mean[Salt(slot)]) * perKg;
        return Observe(slot, volume.Litres, expected, sdLitres, perKg, perKg);
    }

    // S = 1000 s / (w + s) / k, with its derivatives.
    private (double Value, double ByWater, double BySalt) SalinityOf(int slot)
    {
        var (w, s) = (_mean[Water(slot)], _mean[Salt(slot)]);
        var total = w + s;
        var scale = 1000 / GramsPerKilogramPerUnit / (total * total);
        return (s * total * scale, -s * scale, w * scale);
    }

    private double Quadratic(int slot, double byWater, double bySalt)
    {
        var (w, s) = (Water(slot), Salt(slot));
        return (byWater * byWater * _covariance[w, w])
            + (2 * byWater * bySalt * _covariance[w, s])
            + (bySalt * bySalt * _covariance[s, s]);
    }

    private Innovation Observe(
        int slot,
        double seen,
        double expected,
        double sd,
        double byWater,
        double bySalt,
        int? off = null
    )
    {
        Finite.Positive(sd);
        var size = _mean.Length;
        var (w, s) = (Water(slot), Salt(slot));
        var gain = new double[size];
        for (var k = 0; k < size; k++)
        {
            gain[k] =
                (byWater * _covariance[k, w])
                + (bySalt * _covariance[k, s])
                + (off is { } its ? _covariance[k, its] : 0);
        }

        var own = (byWater * gain[w]) + (bySalt * gain[s]) + (off is { } row ? gain[row] : 0);
        var variance = own + (sd * sd);
        var surprise = seen - expected;
        var saltBefore = TotalSaltGrams;
        var before = (Water: _mean[w], Salt: _mean[s]);
        for (var i = 0; i < size; i++)
        {
            _mean[i] += gain[i] * surprise / variance;
            for (var j = 0; j < size; j++)
            {
                _covariance[i, j] -= gain[i] * gain[j] / variance;
            }
        }

        for (var vessel = 0; vessel < Count; vessel++)
        {
            // What a sensor is off by may lie under zero.
            if (_rows[vessel] != Dropped && _slots[vessel].SensorWanderSd is null)
            {
                var k = Water(vessel);
                _mean[k] = Math.Max(LeastWaterKg, _mean[k]);
                _mean[k + 1] = Math.Max(0, _mean[k + 1]);
                _mean[k + 2] = Math.Max(0, _mean[k + 2]);
            }
        }

        return new Innovation(
            expected,
            Math.Sqrt(Math.Max(0, own)),
            seen,
            sd,
            1000 * (_mean[s] - before.Salt),
            TotalSaltGrams - saltBefore,
            _mean[w] - before.Water
        );
    }
}
