using System.Numerics;
using System.Runtime.InteropServices;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>Whether a picture can be one of larvae in a light at all.</summary>
internal static class PhotoFitness
{
    // Share of white pixels from which on the light itself hides larvae: our choice.
    public const double MuchWhite = 0.02;

    // Larvae shine on a dark ground: of a picture of them less than half is brighter than two thirds.
    private const double MostBright = 0.5;
    private const float Bright = 170;

    // Share of the pixels from which on a picture is called too bright, and the brightness that is called white.
    private const double MostWhite = 0.5;
    private const float White = 250;

    /// <summary>Why it cannot be counted in, or nothing.</summary>
    public static Remark? Unfit(ReadOnlySpan<float> grey, GridShape shape)
    {
        shape.MustFit(grey);
        if (shape.Across < 16 || shape.Down < 16)
        {
            return new("picture-too-small");
        }

        var (white, bright, low, high) = Lights(grey);
        // A few grey levels are the rounding of the camera.
        return white > MostWhite * grey.Length
                ? new(
                    "picture-too-bright",
                    new Argument("whitePercent", Math.Round(100.0 * white / grey.Length))
                )
            : high - low < 4 ? new("nothing-stands-out")
            : bright > MostBright * grey.Length
                ? new(
                    "ground-not-dark",
                    new Argument("brightPercent", Math.Round(100.0 * bright / grey.Length))
                )
            : null;
    }

    /// <summary>Share of the pixels that are white.</summary>
    public static double ShareWhite(ReadOnlySpan<float> grey) => (double)Lights(grey).White / grey.Length;

    // How many pixels are white, how many are bright, the darkest and the brightest.
    private static (int White, int Bright, float Low, float High) Lights(ReadOnlySpan<float> grey)
    {
        var many = MemoryMarshal.Cast<float, Vector<float>>(grey);
        var (whites, brights, lows, highs) = (
            Vector<int>.Zero,
            Vector<int>.Zero,
            new Vector<float>(float.MaxValue),
            new Vector<float>(float.MinValue)
        );
        var (fromWhite, fromBright) = (new Vector<float>(White), new Vector<float>(Bright));
        foreach (var value in many)
        {
            whites -= Vector.GreaterThanOrEqual(value, fromWhite);
            brights -= Vector.GreaterThanOrEqual(value, fromBright);
            (lows, highs) = (Vector.Min(lows, value), Vector.Max(highs, value));
        }

        var (white, bright) = (Vector.Sum(whites), Vector.Sum(brights));
        var (low, high) = (float.MaxValue, float.MinValue);
        for (var lane = 0; lane < Vector<float>.Count; lane++)
        {
            (low, high) = (Math.Min(low, lows[lane]), Math.Max(high, highs[lane]));
        }

        foreach (var value in grey[(many.Length * Vector<float>.Count)..])
        {
            white += value >= White ? 1 : 0;
            bright += value >= Bright ? 1 : 0;
            (low, high) = (Math.Min(low, value), Math.Max(high, value));
        }

        return (white, bright, low, high);
    }
}
