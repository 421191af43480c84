namespace Broodtide.Looking.Invented;

/// <summary>
/// A picture that is made up: light from 0 to 1 in nine parts a pixel, then the lens, uneven light, noise and the
/// rounding of a camera. It shares nothing with what looks at it.
/// </summary>
public sealed class Canvas(int across, int down, int seed)
{
    private const int Fine = 3;

    private readonly float[] _light = new float[across * down];

    public int Across => across;

    public int Down => down;

    public Random Dice { get; } = new(seed);

    public double Next(double from, double to) => from + ((to - from) * Dice.NextDouble());

    public double Normal() =>
        Math.Sqrt(-2 * Math.Log(1 - Dice.NextDouble())) * Math.Cos(2 * Math.PI * Dice.NextDouble());

    /// <summary>Adds to the light within a frame what a function of the place in pixels says.</summary>
    public void Add(
        Func<double, double, double> light,
        (double Left, double Top, double Right, double Bottom)? within = null
    )
    {
        var (left, top, right, bottom) = within ?? (0, 0, across - 1, down - 1);
        for (var y = Math.Max(0, (int)top); y <= Math.Min(down - 1, (int)bottom + 1); y++)
        {
            for (var x = Math.Max(0, (int)left); x <= Math.Min(across - 1, (int)right + 1); x++)
            {
                var sum = 0.0;
                for (var part = 0; part < Fine * Fine; part++)
                {
                    sum += light(
                        x + (((part % Fine) + 0.5) / Fine) - 0.5,
                        y + (((part / Fine) + 0.5) / Fine) - 0.5
                    );
                }

                _light[(y * across) + x] += (float)(sum / (Fine * Fine));
            }
        }
    }

    /// <summary>Takes the picture: the lens blurs, light falls off to a side, then noise; levels 0 to 255.</summary>
    public float[] Taken(double blur, double uneven, double noise)
    {
        var soft = blur > 0 ? Lens(Lens(_light, blur, 1, across), blur, across, down) : _light;
        var (turn, corner) = (Next(0, 2 * Math.PI), Math.Sqrt((across * across) + (down * down)) / 2);
        var taken = new float[soft.Length];
        for (var i = 0; i < taken.Length; i++)
        {
            var (right, below) = (
                ((i % across) - (across / 2.0)) / corner,
                ((i / across) - (down / 2.0)) / corner
            );
            var side = (right * Math.Cos(turn)) + (below * Math.Sin(turn));
            var lit = soft[i] * (1 + (uneven * side) - (uneven / 2 * ((right * right) + (below * below))));
            taken[i] = (float)Math.Clamp(Math.Round((255 * lit) + (noise * Normal())), 0, 255);
        }

        return taken;
    }

    // Along lines of a stride; the neighbours beyond the end are the end itself.
    private float[] Lens(float[] light, double blur, int stride, int length)
    {
        var reach = (int)Math.Ceiling(3.5 * blur);
        var weights = Enumerable
            .Range(-reach, (2 * reach) + 1)
            .Select(k => Math.Exp(-k * k / (2 * blur * blur)))
            .ToArray();
        var all = weights.Sum();
        var soft = new float[light.Length];
        for (var i = 0; i < light.Length; i++)
        {
            var at = i / stride % length;
            var sum = 0.0;
            for (var k = -reach; k <= reach; k++)
            {
                sum += weights[k + reach] * light[i + ((Math.Clamp(at + k, 0, length - 1) - at) * stride)];
            }

            soft[i] = (float)(sum / all);
        }

        return soft;
    }
}
