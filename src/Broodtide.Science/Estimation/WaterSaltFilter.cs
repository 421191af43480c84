using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Estimation;

/// <summary>
/// Water, salt and evaporation of several vessels that exchange water, as one Gaussian state with its covariance.
/// Moves carry the mean exactly (what leaves one vessel enters another, water and salt alike) and the errors
/// linearly; readings update it as in an extended Kalman filter (Durbin and Koopman 2012, chapter 10). Salt is
/// created and destroyed nowhere but in a reading, which says how much it moved.
/// </summary>
/// <remarks>
/// State of vessel i: water without salt, kg; salt (absolute, dry), kg; evaporation, kg of water a day. The
/// evaporation wanders slowly, so that a lid put on or a dry week is learned.
/// </remarks>
public sealed class WaterSaltFilter
{
    // Absolute salinity of practical salinity 1, g/kg: 35.16504 / 35 (Millero et al. 2008).
    private const double GramsPerKilogramPerUnit = 35.16504 / 35;

    // How far evaporation may wander in a day, as a share of its prior mean: an assumption, practice without source.
    private const double WanderSharePerDay = 0.1;

    private const double LeastWaterKg = 1e-6;

    private readonly List<Slot> _slots = [];
    private double[] _mean = [];
    private double[,] _covariance = new double[0, 0];

    /// <summary>Number of vessels in the state.</summary>
    public int Count => _slots.Count;

    /// <summary>All the salt in all vessels by the mean, grams.</summary>
    public double TotalSaltGrams
    {
        get
        {
            var sum = 0.0;
            for (var slot = 0; slot < Count; slot++)
            {
                sum += _mean[Salt(slot)];
            }

            return 1000 * sum;
        }
    }

    /// <summary>Adds a vessel with water of a volume and a salinity, both uncertain and independent.</summary>
    /// <param name="volume">Volume; above zero.</param>
    /// <param name="volumeSdLitres">Its standard deviation, litres.</param>
    /// <param name="salinity">Salinity.</param>
    /// <param name="salinitySd">Its standard deviation, practical salinity.</param>
    /// <param name="temperature">Temperature of the water, for its density.</param>
    /// <param name="evaporationKgPerDay">Prior mean of evaporation, kg a day; its standard deviation is the same.</param>
    /// <returns>The vessel's number in this filter, from 0.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, negative or zero where it must not be.</exception>
    public int Add(
        Volume volume,
        double volumeSdLitres,
        Salinity salinity,
        double salinitySd,
        Temperature temperature,
        double evaporationKgPerDay
    )
    {
        Finite.Positive(volume.Litres);
        Finite.NotNegative(volumeSdLitres);
        Finite.NotNegative(salinitySd);
        Finite.NotNegative(evaporationKgPerDay);
        var slot = Count;
        _slots.Add(new Slot(temperature, evaporationKgPerDay));
        Grow();
        var density = Density(salinity, temperature);
        var massKg = volume.Litres * density;
        var share = SaltShare(salinity);
        _mean[Water(slot)] = massKg * (1 - share);
        _mean[Salt(slot)] = massKg * share;
        _mean[Evaporation(slot)] = evaporationKgPerDay;
        Span<double> byVolume = stackalloc double[3];
        byVolume[0] = (1 - share) * density * volumeSdLitres;
        byVolume[1] = share * density * volumeSdLitres;
        AddNoise(slot, byVolume);
        Span<double> bySalinity = stackalloc double[3];
        bySalinity[1] = massKg * GramsPerKilogramPerUnit / 1000 * salinitySd;
        bySalinity[0] = -bySalinity[1];
        AddNoise(slot, bySalinity);
        Span<double> byEvaporation = stackalloc double[3];
        byEvaporation[2] = evaporationKgPerDay;
        AddNoise(slot, byEvaporation);
        return slot;
    }

    /// <summary>The water's temperature from now on, for its density.</summary>
    public void SetTemperature(int slot, Temperature temperature) =>
        _slots[Known(slot)] = _slots[slot] with { Temperature = temperature };

    /// <summary>Lets time pass: every vessel loses water to the air, none loses salt.</summary>
    /// <param name="days">Days, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public void Advance(double days)
    {
        if (Finite.NotNegative(days) == 0)
        {
            return;
        }

        for (var slot = 0; slot < Count; slot++)
        {
            var (w, e) = (Water(slot), Evaporation(slot));
            // A vessel that has run dry stays dry.
            _mean[w] = Math.Max(LeastWaterKg, _mean[w] - (days * Math.Max(0, _mean[e])));
            AddRow(w, e, -days);
            var q = Math.Pow(WanderSharePerDay * _slots[slot].EvaporationPriorKgPerDay, 2) * days;
            _covariance[e, e] += q;
            _covariance[w, w] += q * days * days / 3;
            _covariance[w, e] -= q * days / 2;
            _covariance[e, w] -= q * days / 2;
        }
    }

    /// <summary>Pours water of one vessel into another, or away.</summary>
    /// <param name="from">Out of this one.</param>
    /// <param name="to">Into this one; away if none.</param>
    /// <param name="volume">How much.</param>
    /// <param name="volumeSdLitres">Its standard deviation, litres.</param>
    /// <returns>What was moved by the mean: less than asked when the vessel held less.</returns>
    public PouredWater Pour(int from, int? to, Volume volume, double volumeSdLitres)
    {
        Known(from);
        Finite.NotNegative(volumeSdLitres);
        var (w, s) = (_mean[Water(from)], _mean[Salt(from)]);
        var total = w + s;
        var share = s / total;
        var density = Density(from);
        var asked = volume.Litres * density;
        var moved = Math.Min(asked, total - LeastWaterKg);
        var water = moved * (1 - share);
        var salt = moved * share;

        // d(salt moved) at a fixed mass moved; the water moved takes the opposite sign.
        var bySalt = moved * w / (total * total);
        var byWater = -moved * s / (total * total);
        var noiseWater = (1 - share) * density * volumeSdLitres;
        var noiseSalt = share * density * volumeSdLitres;
        var (wf, sf) = (Water(from), Salt(from));
        _mean[wf] = w - water;
        _mean[sf] = s - salt;
        if (to is { } into)
        {
            Known(into);
            _mean[Water(into)] += water;
            _mean[Salt(into)] += salt;
        }

        Transfer(from, to, bySalt, byWater);
        AddTransferNoise(from, to, noiseWater, noiseSalt);
        return new PouredWater(moved / density, 1000 * salt, moved < asked);
    }

    /// <summary>Water from outside the filter's vessels goes in.</summary>
    /// <param name="to">Into this one.</param>
    /// <param name="volume">How much.</param>
    /// <param name="volumeSdLitres">Its standard deviation, litres.</param>
    /// <param name="salinity">Its salinity.</param>
    /// <param name="salinitySd">Standard deviation of its salinity.</param>
    public void PourIn(int to, Volume volume, double volumeSdLitres, Salinity salinity, double salinitySd)
    {
        Known(to);
        Finite.NotNegative(volumeSdLitres);
        Finite.NotNegative(salinitySd);
        var density = Density(salinity, _slots[to].Temperature);
        var share = SaltShare(salinity);
        var massKg = volume.Litres * density;
        _mean[Water(to)] += massKg * (1 - share);
        _mean[Salt(to)] += massKg * share;
        Span<double> noise = stackalloc double[3];
        noise[0] = (1 - share) * density * volumeSdLitres;
        noise[1] = share * density * volumeSdLitres;
        AddNoise(to, noise);
        noise.Clear();
        noise[1] = massKg * GramsPerKilogramPerUnit / 1000 * salinitySd;
        noise[0] = -noise[1];
        AddNoise(to, noise);
    }

    /// <summary>Dry salt mix is dissolved.</summary>
    /// <param name="to">In this one.</param>
    /// <param name="mix">How much was weighed.</param>
    /// <param name="massSdGrams">Standard deviation of the weighing, grams.</param>
    /// <param name="moisture">Water in the mix, 0 to 1 by mass.</param>
    /// <param name="moistureSd">Its standard deviation.</param>
    public void Dissolve(int to, Mass mix, double massSdGrams, double moisture, double moistureSd)
    {
        Known(to);
        Finite.Within(moisture, 0, 1);
        Finite.NotNegative(massSdGrams);
        Finite.NotNegative(moistureSd);
        _mean[Water(to)] += mix.Kilograms * moisture;
        _mean[Salt(to)] += mix.Kilograms * (1 - moisture);
        Span<double> noise = stackalloc double[3];
        noise[0] = moisture * massSdGrams / 1000;
        noise[1] = (1 - moisture) * massSdGrams / 1000;
        AddNoise(to, noise);
        noise.Clear();
        noise[0] = mix.Kilograms * moistureSd;
        noise[1] = -noise[0];
        AddNoise(to, noise);
    }

    /// <summary>Water goes into the air, leaving its salt, beyond what evaporates day by day.</summary>
    public void Evaporate(int from, Volume volume, double volumeSdLitres)
    {
        var density = Density(default, _slots[Known(from)].Temperature);
        _mean[Water(from)] = Math.Max(LeastWaterKg, _mean[Water(from)] - (volume.Litres * density));
        Span<double> noise = stackalloc double[3];
        noise[0] = density * Finite.NotNegative(volumeSdLitres);
        AddNoise(from, noise);
    }

    /// <summary>
    /// Something unknown happened to a vessel's water: its water and salt become uncertain by shares of themselves.
    /// </summary>
    /// <param name="slot">The vessel.</param>
    /// <param name="waterShare">Standard deviation to add to the water, as a share of it.</param>
    /// <param name="saltShare">Standard deviation to add to the salt, as a share of it.</param>
    public void Doubt(int slot, double waterShare, double saltShare)
    {
        var (w, s) = (Water(Known(slot)), Salt(slot));
        _covariance[w, w] += Math.Pow(Finite.NotNegative(waterShare) * _mean[w], 2);
        _covariance[s, s] += Math.Pow(Finite.NotNegative(saltShare) * Math.Max(_mean[s], 0.001), 2);
    }

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

    /// <summary>A filter of its own in the same state, to look ahead with.</summary>
    public WaterSaltFilter Copy()
    {
        var copy = new WaterSaltFilter();
        copy._slots.AddRange(_slots);
        copy._mean = [.. _mean];
        copy._covariance = (double[,])_covariance.Clone();
        return copy;
    }

    private static int Water(int slot) => 3 * slot;

    private static int Salt(int slot) => (3 * slot) + 1;

    private static int Evaporation(int slot) => (3 * slot) + 2;

    private static double SaltShare(Salinity salinity) => salinity.Practical * GramsPerKilogramPerUnit / 1000;

    private int Known(int slot) =>
        slot >= 0 && slot < Count
            ? slot
            : throw new ArgumentOutOfRangeException(nameof(slot), slot, "No such vessel.");

    // kg per litre. Outside the published range the formula still gives the best figure there is for a mass.
    private static double Density(Salinity salinity, Temperature temperature) =>
        SeawaterDensity.Eos80(salinity, temperature).Value.KilogramsPerCubicMetre / 1000;

    private double Density(int slot)
    {
        var (value, _, _) = SalinityOf(slot);
        return Density(Salinity.FromPractical(Math.Clamp(value, 0, 100)), _slots[slot].Temperature);
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
        double bySalt
    )
    {
        Finite.Positive(sd);
        var size = _mean.Length;
        var (w, s) = (Water(slot), Salt(slot));
        var gain = new double[size];
        for (var k = 0; k < size; k++)
        {
            gain[k] = (byWater * _covariance[k, w]) + (bySalt * _covariance[k, s]);
        }

        var own = (byWater * gain[w]) + (bySalt * gain[s]);
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

        for (var k = 0; k < Count; k++)
        {
            _mean[Water(k)] = Math.Max(LeastWaterKg, _mean[Water(k)]);
            _mean[Salt(k)] = Math.Max(0, _mean[Salt(k)]);
            _mean[Evaporation(k)] = Math.Max(0, _mean[Evaporation(k)]);
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

    // x -> A x with A = 1 + D: how the amounts moved depend on what the vessel was believed to hold.
    private void Transfer(int from, int? to, double bySalt, double byWater)
    {
        var (wf, sf) = (Water(from), Salt(from));
        var size = _mean.Length;
        // Rows first, then columns: P -> A P, then (A P) A'.
        for (var pass = 0; pass < 2; pass++)
        {
            for (var k = 0; k < size; k++)
            {
                ref var pw = ref Cell(pass, wf, k);
                ref var ps = ref Cell(pass, sf, k);
                var salt = (bySalt * ps) + (byWater * pw);
                pw += salt;
                ps -= salt;
                if (to is { } into)
                {
                    Cell(pass, Water(into), k) -= salt;
                    Cell(pass, Salt(into), k) += salt;
                }
            }
        }
    }

    private ref double Cell(int pass, int row, int column) =>
        ref pass == 0 ? ref _covariance[row, column] : ref _covariance[column, row];

    private void AddTransferNoise(int from, int? to, double water, double salt)
    {
        var noise = new double[_mean.Length];
        noise[Water(from)] = -water;
        noise[Salt(from)] = -salt;
        if (to is { } into)
        {
            noise[Water(into)] += water;
            noise[Salt(into)] += salt;
        }

        for (var i = 0; i < noise.Length; i++)
        {
            for (var j = 0; j < noise.Length; j++)
            {
                _covariance[i, j] += noise[i] * noise[j];
            }
        }
    }

    private void AddNoise(int slot, ReadOnlySpan<double> noise)
    {
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                _covariance[(3 * slot) + i, (3 * slot) + j] += noise[i] * noise[j];
            }
        }
    }

    // Row and column: x[row] += factor * x[source].
    private void AddRow(int row, int source, double factor)
    {
        var size = _mean.Length;
        for (var k = 0; k < size; k++)
        {
            _covariance[row, k] += factor * _covariance[source, k];
        }

        for (var k = 0; k < size; k++)
        {
            _covariance[k, row] += factor * _covariance[k, source];
        }
    }

    private void Grow()
    {
        var size = 3 * Count;
        Array.Resize(ref _mean, size);
        var larger = new double[size, size];
        for (var i = 0; i < size - 3; i++)
        {
            for (var j = 0; j < size - 3; j++)
            {
                larger[i, j] = _covariance[i, j];
            }
        }

        _covariance = larger;
    }

    private readonly record struct Slot(Temperature Temperature, double EvaporationPriorKgPerDay);
}
