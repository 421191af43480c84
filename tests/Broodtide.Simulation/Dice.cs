namespace Broodtide.Simulation;

/// <summary>Chance from a seed: the same seed gives the same broods on every machine.</summary>
public sealed class Dice
{
    private ulong _state;

    public Dice(ulong seed) => _state = seed;

    /// <summary>Even on 0 to 1. SplitMix64 (Steele, Lea and Flood 2014), upper 53 bits.</summary>
    public double Even()
    {
        _state += 0x9E3779B97F4A7C15UL;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        z ^= z >> 31;
        return (z >> 11) * (1.0 / (1UL << 53));
    }

    public double Between(double low, double high) => low + ((high - low) * Even());

    public bool Chance(double probability) => Even() < probability;

    /// <summary>Standard normal by Box and Muller (1958).</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(1 - Even())) * Math.Cos(2 * Math.PI * Even());

    public double Exponential(double mean) => -mean * Math.Log(1 - Even());

    /// <summary>Gamma with mean one by summing exponentials; the shape is a whole number.</summary>
    public double GammaOfMeanOne(int shape)
    {
        var sum = 0.0;
        for (var i = 0; i < shape; i++)
        {
            sum += Exponential(1);
        }

        return sum / shape;
    }

    public double Triangular(double low, double mode, double high)
    {
        var even = Even();
        var turn = (mode - low) / (high - low);
        return even < turn
            ? low + Math.Sqrt(even * (high - low) * (mode - low))
            : high - Math.Sqrt((1 - even) * (high - low) * (high - mode));
    }
}
