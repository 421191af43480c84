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
/// evaporation wanders slowly, so that a lid put on or a dry week is learned. A sensor that stays in the water has a row
/// of its own for what it is off by.
/// </remarks>
public sealed partial class WaterSaltFilter
{
    // Absolute salinity of practical salinity 1, g/kg: 35.16504 / 35 (Millero et al. 2008).
    private const double GramsPerKilogramPerUnit = 35.16504 / 35;

    // How far evaporation may wander in a day, as a share of its prior mean: an assumption, practice without source.
    private const double WanderSharePerDay = 0.1;

    private const double LeastWaterKg = 1e-6;

    private const int Dropped = -1;

    private readonly List<Slot> _slots = [];

    // Where in the state a vessel stands: those that were dropped make room.
    private readonly List<int> _rows = [];
    private double[] _mean = [];
    private double[,] _covariance = new double[0, 0];

    /// <summary>Number of vessels and sensors added so far, those that were dropped included.</summary>
    public int Count => _slots.Count;

    /// <summary>All the salt in all vessels that were not dropped, by the mean, grams.</summary>
    public double TotalSaltGrams
    {
        get
        {
            var sum = 0.0;
            for (var salt = 1; salt < _mean.Length; salt += 3)
            {
                sum += _mean[salt];
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
        _rows.Add(_mean.Length / 3);
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
            if (_rows[slot] == Dropped)
            {
                continue;
            }

            if (_slots[slot].SensorWanderSd is { } wander)
            {
                _covariance[Off(slot), Off(slot)] += wander * wander * days;
                continue;
            }

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

    /// <summary>A filter of its own in the same state, to look ahead with.</summary>
    public WaterSaltFilter Copy()
    {
        var copy = new WaterSaltFilter();
        copy._slots.AddRange(_slots);
        copy._rows.AddRange(_rows);
        copy._mean = [.. _mean];
        copy._covariance = (double[,])_covariance.Clone();
        return copy;
    }

    /// <summary>
    /// A filter of one vessel of this one, as it is believed here, to look ahead with: while it exchanges water with
    /// no other, it needs none of them. The vessel is number 0 in it.
    /// </summary>
    /// <param name="slot">The vessel.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such vessel, or it was dropped.</exception>
    public WaterSaltFilter Only(int slot)
    {
        var alone = new WaterSaltFilter();
        alone._slots.Add(_slots[Known(slot)]);
        alone._rows.Add(0);
        alone._mean = _mean[Water(slot)..(Water(slot) + 3)];
        alone._covariance = new double[3, 3];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                alone._covariance[i, j] = _covariance[Water(slot) + i, Water(slot) + j];
            }
        }

        return alone;
    }

    /// <summary>
    /// Leaves a vessel out from now on, as when its water was thrown away. What is believed of the others stays what
    /// it is; numbers of vessels stay too.
    /// </summary>
    /// <param name="slot">The vessel; it may not be asked for again.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such vessel, or it was dropped.</exception>
    public void Drop(int slot)
    {
        var row = _rows[Known(slot)];
        Shrink(row);
        _rows[slot] = Dropped;
        for (var other = 0; other < _rows.Count; other++)
        {
            _rows[other] -= _rows[other] > row ? 1 : 0;
        }
    }

    private int Water(int slot) => 3 * _rows[slot];

    private int Salt(int slot) => (3 * _rows[slot]) + 1;

    private int Evaporation(int slot) => (3 * _rows[slot]) + 2;

    private static double SaltShare(Salinity salinity) => salinity.Practical * GramsPerKilogramPerUnit / 1000;

    private int Known(int slot) =>
        slot >= 0 && slot < Count && _rows[slot] != Dropped && _slots[slot].SensorWanderSd is null
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

    // Of a sensor only how far it wanders is there.
    private readonly record struct Slot(
        Temperature Temperature,
        double EvaporationPriorKgPerDay,
        double? SensorWanderSd = null
    );
}
