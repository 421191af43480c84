using Broodtide.Science.Imaging;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>Invented pictures: soft bright spots of any length on a dark ground with grain. No code of the product.</summary>
internal sealed class Scenery(GridShape shape, int seed)
{
    private readonly Random _dice = new(seed);
    private readonly float[] _light = new float[shape.Count];

    public GridShape Shape => shape;

    /// <summary>A bright capsule: its middle, half its length along a direction, its radius, its brightness.</summary>
    public void Add((double X, double Y) at, double half, double angle, double radius, double bright)
    {
        var (c, s) = (Math.Cos(angle), Math.Sin(angle));
        for (var y = 0; y < shape.Down; y++)
        {
            for (var x = 0; x < shape.Across; x++)
            {
                var (u, v) = (x - at.X, y - at.Y);
                var along = Math.Clamp((u * c) + (v * s), -half, half);
                var away = Math.Sqrt(Math.Pow(u - (along * c), 2) + Math.Pow(v - (along * s), 2));
                _light[(y * shape.Across) + x] += (float)(bright / (1 + Math.Exp((away - radius) * 2)));
            }
        }
    }

    public float[] Taken(double ground = 12, double grain = 1.2) =>
        Array.ConvertAll(
            _light,
            value => (float)Math.Round(Math.Clamp(value + ground + (grain * Normal()), 0, 255))
        );

    public double Next(double from, double to) => from + ((to - from) * _dice.NextDouble());

    private double Normal() =>
        Math.Sqrt(-2 * Math.Log(1 - _dice.NextDouble())) * Math.Cos(2 * Math.PI * _dice.NextDouble());
}
