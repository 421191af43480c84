using Broodtide.Science.Imaging;

namespace Broodtide.Looking.Tests;

/// <summary>Invented pictures: soft hills, bright discs and noise, the same for the same seed.</summary>
internal sealed class Texture
{
    private readonly (double X, double Y, double Radius, double Light)[] _discs;
    private readonly int _seed;

    public Texture(int seed, GridShape shape, int discs = 40)
    {
        _seed = seed;
        Shape = shape;
        var random = new Random(seed);
        _discs =
        [
            .. Enumerable
                .Range(0, discs)
                .Select(_ =>
                    (
                        random.NextDouble() * shape.Across,
                        random.NextDouble() * shape.Down,
                        2 + (random.NextDouble() * 6),
                        60 + (random.NextDouble() * 120)
                    )
                ),
        ];
    }

    public GridShape Shape { get; }

    /// <summary>The picture, seen through a camera that moved.</summary>
    public float[] Grid(double right = 0, double down = 0, double noise = 1)
    {
        var random = new Random(_seed + 1);
        var grid = new float[Shape.Count];
        for (var i = 0; i < grid.Length; i++)
        {
            var (x, y) = ((i % Shape.Across) - right, (i / Shape.Across) - down);
            var light = 30 + (8 * Math.Sin(x / 23) * Math.Cos(y / 31));
            foreach (var disc in _discs)
            {
                var far = Math.Sqrt(Math.Pow(x - disc.X, 2) + Math.Pow(y - disc.Y, 2)) - disc.Radius;
                light += far < 4 ? disc.Light / (1 + Math.Exp(2 * far)) : 0;
            }

            grid[i] = (float)Math.Clamp(light + (noise * (random.NextDouble() - 0.5)), 0, 255);
        }

        return grid;
    }

    public byte[] Bytes() => Array.ConvertAll(Grid(), value => (byte)value);

    public byte[] Marked(float level = 80) =>
        Array.ConvertAll(Grid(), value => (byte)(value > level ? 1 : 0));
}
