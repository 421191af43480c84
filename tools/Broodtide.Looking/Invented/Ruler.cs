namespace Broodtide.Looking.Invented;

/// <summary>A made-up ruler: ticks at even steps, every fifth and tenth longer, with lettering and dirt beside them.</summary>
public sealed record Ruler(
    double Pitch,
    double Degrees,
    double Blur,
    double Noise,
    double Uneven,
    bool IsBright,
    bool IsLettered
)
{
    /// <summary>One at random.</summary>
    public static Ruler Any(Random dice)
    {
        double Next(double from, double to) => from + ((to - from) * dice.NextDouble());
        var pitch = 5 * Math.Pow(10, dice.NextDouble());
        return new(
            pitch,
            Next(0, 180),
            Math.Min(Next(0.3, 2.5), pitch / 6),
            Next(0, 10),
            Next(0, 0.5),
            dice.Next(3) == 0,
            dice.Next(2) == 0
        );
    }

    public float[] Draw(int across, int down, int seed)
    {
        var canvas = new Canvas(across, down, seed);
        var (c, s) = (Math.Cos(Degrees * Math.PI / 180), Math.Sin(Degrees * Math.PI / 180));
        var (middleX, middleY) = (across * canvas.Next(0.4, 0.6), down * canvas.Next(0.4, 0.6));
        var (shift, width) = (canvas.Next(0, Pitch), Pitch * canvas.Next(0.15, 0.45));
        var high = Math.Min(across, down) * canvas.Next(0.06, 0.16);
        var half = Math.Max(7 * Pitch, canvas.Next(0.3, 0.8) * Math.Max(across, down));
        var (ground, mark) = IsBright ? (0.12, 0.55) : (0.8, -0.6);
        canvas.Add((_, _) => ground);
        canvas.Add(
            (x, y) =>
            {
                var along = ((x - middleX) * c) + ((y - middleY) * s);
                var away = ((y - middleY) * c) - ((x - middleX) * s);
                var number = Math.Round((along - shift) / Pitch);
                var length =
                    high
                    * (
                        number % 10 == 0 ? 2
                        : number % 5 == 0 ? 1.5
                        : 1
                    );
                return
                    Math.Abs(along) < half
                    && away > 0
                    && away < length
                    && Math.Abs(along - shift - (number * Pitch)) < width / 2
                    ? mark
                    : 0;
            }
        );
        for (var word = 0; IsLettered && word < 12; word++)
        {
            Letter(canvas, mark, middleX, middleY, high, (c, s));
        }

        return canvas.Taken(Blur, Uneven, Noise);
    }

    // Little strokes at any slant, beside the ticks.
    private static void Letter(
        Canvas canvas,
        double mark,
        double x,
        double y,
        double high,
        (double C, double S) way
    )
    {
        var (along, away) = (canvas.Next(-0.4, 0.4) * canvas.Across, -high * canvas.Next(0.5, 2));
        var (atX, atY) = (x + (along * way.C) - (away * way.S), y + (along * way.S) + (away * way.C));
        var (turn, half, thick) = (canvas.Next(0, Math.PI), high * 0.2, Math.Max(1, high * 0.05));
        var (tc, ts) = (Math.Cos(turn), Math.Sin(turn));
        canvas.Add(
            (u, v) =>
                Math.Abs(((u - atX) * tc) + ((v - atY) * ts)) < half
                && Math.Abs(((v - atY) * tc) - ((u - atX) * ts)) < thick
                    ? mark / 2
                    : 0,
            (atX - half, atY - half, atX + half, atY + half)
        );
    }
}
