namespace Broodtide.Scenes;

/// <summary>Chance from a seed, the same on every machine (splitmix64, Steele, Lea and Flood 2014).</summary>
public sealed class Dice(long seed)
{
    private ulong _state = unchecked((ulong)seed * 0xD1342543DE82EF95UL);

    /// <summary>From 0 to 1, 1 left out.</summary>
    public double Next()
    {
        unchecked
        {
            var mixed = _state += 0x9E3779B97F4A7C15UL;
            mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9UL;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBUL;
            return ((mixed ^ (mixed >> 31)) >> 11) * (1.0 / (1UL << 53));
        }
    }

    public double Next(double from, double to) => from + ((to - from) * Next());

    /// <summary>A whole number, both ends possible.</summary>
    public int Whole(int from, int to) => Math.Min(to, (int)Math.Floor(Next(from, to + 1.0)));

    public bool Happens(double chance) => Next() < chance;

    public double Normal(double deviation = 1) =>
        deviation * Math.Sqrt(-2 * Math.Log(1 - Next())) * Math.Cos(2 * Math.PI * Next());

    /// <summary>Gamma of shape 2 and scale 1: mean 2.</summary>
    public double GammaTwo() => -Math.Log((1 - Next()) * (1 - Next()));

    public double LogNormal(double median, double cv) => median * Math.Exp(Normal(cv));

    public double LogUniform(double from, double to) => from * Math.Pow(to / from, Next());

    public double Angle() => Next(0, 2 * Math.PI);
}
