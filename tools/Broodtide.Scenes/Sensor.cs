namespace Broodtide.Scenes;

/// <summary>From linear light to the bytes of a picture: vignetting, cast, noise, gamma, sharpening.</summary>
internal static class Sensor
{
    private const int Steps = 4096;
    private const double Gamma = 2.2;

    private static readonly float[] Curve =
    [
        .. Enumerable
            .Range(0, Steps + 2)
            .Select(i => (float)(255 * Math.Pow(Math.Min(1, (double)i / Steps), 1 / Gamma))),
    ];

    public static byte[] Taken(InventedScene scene, int number, float[] light)
    {
        var (camera, width, height) = (scene.Camera, scene.Width, scene.Height);
        var grain = new Grain(unchecked((scene.NoiseSeed * 31) + number + 1));
        var colours = new byte[3 * light.Length];
        var (well, read) = ((float)camera.FullWell, (float)camera.ReadNoise);
        var corner = Math.Pow(width / 2.0, 2) + Math.Pow(height / 2.0, 2);
        var plane = new float[light.Length];
        for (var channel = 0; channel < 3; channel++)
        {
            var gain = (float)(camera.Cast[channel] * camera.Holds[number].Exposure);
            for (var y = 0; y < height; y++)
            {
                var v = y - (height / 2.0);
                var tint = gain * (float)(1 + (camera.CastSlope * (channel - 1) * v / height));
                for (var x = 0; x < width; x++)
                {
                    var u = x - (width / 2.0);
                    var fall = (float)(1 - (camera.Vignetting * ((u * u) + (v * v)) / corner));
                    var i = (y * width) + x;
                    var electrons = Math.Clamp(light[i] * tint * fall, 0, 1.5f) * well;
                    electrons += grain.Next() * MathF.Sqrt(electrons + (read * read));
                    plane[i] = Brightness(electrons / well);
                }
            }

            Sharpened(plane, width, height, camera.Sharpening, colours, channel);
        }

        return colours;
    }

    private static float Brightness(float value)
    {
        var at = Math.Clamp(value, 0, 1) * Steps;
        var step = (int)at;
        return Curve[step] + ((at - step) * (Curve[step + 1] - Curve[step]));
    }

    private static void Sharpened(
        float[] plane,
        int width,
        int height,
        double weight,
        byte[] colours,
        int channel
    )
    {
        var soft = Soft.Blurred(plane, width, height, 1);
        for (var i = 0; i < plane.Length; i++)
        {
            var value = plane[i] + ((float)weight * (plane[i] - soft[i]));
            colours[(3 * i) + channel] = (byte)Math.Clamp(value + 0.5f, 0, 255);
        }
    }
}

/// <summary>Normal noise, fast: a table of draws, walked through by a generator of its own (xorshift, Marsaglia 2003).</summary>
internal sealed class Grain(int seed)
{
    private const int Size = 1 << 16;

    private static readonly float[] Normals = Table();

    private uint _state = unchecked((uint)seed * 2_654_435_761u) | 1;

    public float Next()
    {
        _state ^= _state << 13;
        _state ^= _state >> 17;
        _state ^= _state << 5;
        return Normals[_state >> 16];
    }

    private static float[] Table()
    {
        var dice = new Dice(1);
        return [.. Enumerable.Range(0, Size).Select(_ => (float)dice.Normal())];
    }
}
