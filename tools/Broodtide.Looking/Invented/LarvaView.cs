namespace Broodtide.Looking.Invented;

/// <summary>
/// A made-up larva: a capsule that narrows to its tail, bent to an arc or an S, with an eye and a few thin limbs. No
/// photograph.
/// </summary>
/// <param name="Length">Pixels along its axis from end to end.</param>
/// <param name="Thick">Its greatest width as a share of the length.</param>
/// <param name="Taper">The tail's width as a share of the head's.</param>
/// <param name="Turn">Radians by which its direction turns from head to tail.</param>
/// <param name="Swing">Radians by which it swings to one side and back.</param>
/// <param name="IsBright">Whether it is brighter than the ground.</param>
/// <param name="Limbs">How many thin limbs it has.</param>
/// <param name="Blur">Standard deviation of the lens's blur, pixels.</param>
/// <param name="Noise">Standard deviation of the noise, grey levels.</param>
/// <param name="Uneven">By what share the light falls off to a side.</param>
public sealed record LarvaView(
    double Length,
    double Thick,
    double Taper,
    double Turn,
    double Swing,
    bool IsBright,
    int Limbs,
    double Blur,
    double Noise,
    double Uneven
)
{
    private const int Pieces = 90;

    public static LarvaView Any(Random dice)
    {
        double Next(double from, double to) => from + ((to - from) * dice.NextDouble());
        return new(
            60 * Math.Pow(400 / 60.0, dice.NextDouble()),
            Next(0.12, 0.22),
            Next(0.35, 1),
            Next(-2, 2),
            Next(-0.8, 0.8),
            dice.Next(2) == 0,
            dice.Next(7),
            Next(0.5, 2.2),
            Next(0.5, 6),
            Next(0, 0.4)
        );
    }

    /// <summary>The picture, and the axis from end to end.</summary>
    public (float[] Grey, IReadOnlyList<(double X, double Y)> Axis) Draw(int across, int down, int seed)
    {
        var canvas = new Canvas(across, down, seed);
        var (ground, body) = IsBright ? (0.15, 0.45) : (0.7, -0.4);
        canvas.Add((_, _) => ground);
        var axis = Bent(canvas);
        var (head, tail) = (Length * Thick / 2, Length * Thick / 2 * Taper);
        var trunk = Enumerable
            .Range(0, Pieces + 1)
            .Select(i =>
            {
                var share = (double)i / Pieces;
                var at = (head + (share * (Length - tail - head))) / Length * Pieces;
                var (whole, part) = ((int)at, at - (int)at);
                var (from, to) = (axis[whole], axis[Math.Min(Pieces, whole + 1)]);
                return (
                    X: from.X + (part * (to.X - from.X)),
                    Y: from.Y + (part * (to.Y - from.Y)),
                    R: head + ((tail - head) * share)
                );
            })
            .ToList();
        var frame = (
            axis.Min(p => p.X) - head,
            axis.Min(p => p.Y) - head,
            axis.Max(p => p.X) + head,
            axis.Max(p => p.Y) + head
        );
        canvas.Add(
            (x, y) =>
                trunk.Exists(p => ((x - p.X) * (x - p.X)) + ((y - p.Y) * (y - p.Y)) < p.R * p.R) ? body : 0,
            frame
        );
        Eye(canvas, trunk[2], head, body);
        for (var limb = 0; limb < Limbs; limb++)
        {
            Limb(canvas, trunk[canvas.Dice.Next(trunk.Count / 4, trunk.Count / 2)], head, body);
        }

        return (canvas.Taken(Blur, Uneven, Noise), axis);
    }

    private List<(double X, double Y)> Bent(Canvas canvas)
    {
        var way = canvas.Next(0, 2 * Math.PI);
        var axis = new List<(double X, double Y)> { (0, 0) };
        for (var i = 0; i < Pieces; i++)
        {
            var share = (i + 0.5) / Pieces;
            var here = way + (Turn * share) + (Swing * Math.Sin(2 * Math.PI * share));
            axis.Add(
                (
                    axis[^1].X + (Length / Pieces * Math.Cos(here)),
                    axis[^1].Y + (Length / Pieces * Math.Sin(here))
                )
            );
        }

        var (x, y) = (
            (canvas.Across / 2.0) - ((axis.Min(p => p.X) + axis.Max(p => p.X)) / 2) + canvas.Next(-8, 8),
            (canvas.Down / 2.0) - ((axis.Min(p => p.Y) + axis.Max(p => p.Y)) / 2) + canvas.Next(-8, 8)
        );
        return [.. axis.Select(p => (p.X + x, p.Y + y))];
    }

    private static void Eye(Canvas canvas, (double X, double Y, double R) at, double head, double body)
    {
        var r = 0.35 * head;
        canvas.Add(
            (x, y) => Math.Pow(x - at.X, 2) + Math.Pow(y - at.Y, 2) < r * r ? -0.6 * body : 0,
            (at.X - r, at.Y - r, at.X + r, at.Y + r)
        );
    }

    private static void Limb(Canvas canvas, (double X, double Y, double R) at, double head, double body)
    {
        var (turn, length, half) = (canvas.Next(0, 2 * Math.PI), head * canvas.Next(1.5, 2.5), 0.07 * head);
        var (c, s) = (Math.Cos(turn), Math.Sin(turn));
        canvas.Add(
            (x, y) =>
            {
                var (along, away) = (
                    ((x - at.X) * c) + ((y - at.Y) * s),
                    ((y - at.Y) * c) - ((x - at.X) * s)
                );
                return along > at.R && along < length && Math.Abs(away) < half ? 0.7 * body : 0;
            },
            (at.X - length, at.Y - length, at.X + length, at.Y + length)
        );
    }
}
