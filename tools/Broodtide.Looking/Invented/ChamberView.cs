namespace Broodtide.Looking.Invented;

/// <summary>How the cells of a made-up chamber look.</summary>
public enum CellLook
{
    Dark,
    Bright,
    Ringed,
}

/// <summary>
/// A made-up look into a counting chamber: ruled lines, some of them threefold, cells thrown at random as many as a density
/// gives, some in pairs, dirt, uneven light and noise. No photograph.
/// </summary>
/// <param name="StepMillimetres">From ruled line to ruled line.</param>
/// <param name="StepsPerBorder">Every so manieth line is threefold; 1: none is.</param>
/// <param name="DepthMillimetres">Depth of the water.</param>
/// <param name="StepPixels">Pixels from line to line.</param>
/// <param name="CellPixels">Radius of a cell.</param>
/// <param name="PerMillilitre">Cells in the chamber.</param>
/// <param name="Degrees">How far the ruling is turned.</param>
/// <param name="LinesAreDark">Whether the lines are darker than the ground.</param>
/// <param name="Look">How cells look.</param>
/// <param name="Dirt">How much dirt there is, 0 to 1.</param>
/// <param name="Blur">Standard deviation of the lens's blur, pixels.</param>
/// <param name="Noise">Standard deviation of the noise, grey levels.</param>
/// <param name="Uneven">By what share the light falls off to a side.</param>
public sealed record ChamberView(
    double StepMillimetres,
    int StepsPerBorder,
    double DepthMillimetres,
    double StepPixels,
    double CellPixels,
    double PerMillilitre,
    double Degrees,
    bool LinesAreDark,
    CellLook Look,
    double Dirt,
    double Blur,
    double Noise,
    double Uneven
)
{
    /// <summary>One at random, with about the given number of cells in a picture.</summary>
    public static ChamberView Any(Random dice, (double Step, int Border, double Depth) ruling, int pixels)
    {
        double Next(double from, double to) => from + ((to - from) * dice.NextDouble());
        var step = pixels / (ruling.Border == 1 ? Next(3.3, 6) : Next(5.5, 13));
        var radius = Math.Max(3, step * Next(0.03, 0.09));
        // From a few to a crowd that covers a twentieth of the ground.
        var most = pixels * pixels / (20 * Math.PI * radius * radius);
        var wanted = 15 * Math.Pow(Math.Min(most, 400) / 15, dice.NextDouble());
        var microlitres = Math.Pow(pixels / step * ruling.Step, 2) * ruling.Depth;
        var look = (CellLook)dice.Next(3);
        return new(
            ruling.Step,
            ruling.Border,
            ruling.Depth,
            step,
            radius,
            wanted / microlitres * 1_000,
            Next(-20, 20),
            look != CellLook.Bright || dice.Next(2) == 0,
            look,
            Next(0, 1),
            Next(0.6, 1.6),
            Next(1, 7),
            Next(0, 0.4)
        );
    }

    /// <summary>The picture, and where the cells lie that were thrown into it.</summary>
    public (float[] Grey, IReadOnlyList<(double X, double Y)> Cells) Draw(int across, int down, int seed)
    {
        var canvas = new Canvas(across, down, seed);
        var ground = Look == CellLook.Bright ? canvas.Next(0.1, 0.25) : canvas.Next(0.5, 0.75);
        canvas.Add((_, _) => ground);
        Rule(canvas);
        var cells = new List<(double, double)>();
        var volume =
            across / StepPixels * StepMillimetres * (down / StepPixels * StepMillimetres) * DepthMillimetres;
        for (var left = Poisson(canvas, PerMillilitre * volume / 1_000); left > 0; left--)
        {
            var (x, y) = (canvas.Next(-0.5, across - 0.5), canvas.Next(-0.5, down - 0.5));
            cells.Add((x, y));
            Cell(canvas, x, y);
            if (left > 1 && canvas.Next(0, 1) < 0.03)
            {
                // A pair that has just divided.
                var turn = canvas.Next(0, 2 * Math.PI);
                var (u, v) = (
                    x + (1.9 * CellPixels * Math.Cos(turn)),
                    y + (1.9 * CellPixels * Math.Sin(turn))
                );
                cells.Add((u, v));
                Cell(canvas, u, v);
                left--;
            }
        }

        for (var piece = 0; piece < 12 * Dirt; piece++)
        {
            Speck(canvas, canvas.Next(0.15, 0.4) * CellPixels);
        }

        for (var piece = 0; piece < 3 * Dirt; piece++)
        {
            Speck(canvas, canvas.Next(2.3, 4) * CellPixels);
        }

        return (canvas.Taken(Blur, Uneven, Noise), cells);
    }

    private void Rule(Canvas canvas)
    {
        var (c, s) = (Math.Cos(Degrees * Math.PI / 180), Math.Sin(Degrees * Math.PI / 180));
        var (shiftU, shiftV) = (
            canvas.Next(0, StepsPerBorder * StepPixels),
            canvas.Next(0, StepsPerBorder * StepPixels)
        );
        var width = Math.Max(1.2, StepPixels * canvas.Next(0.01, 0.025));
        var strong = canvas.Next(0.12, 0.3) * (LinesAreDark ? -1 : 1);
        var apart = 0.07 * StepPixels;
        double Line(double at)
        {
            var number = Math.Round(at / StepPixels);
            var off = Math.Abs(at - (number * StepPixels));
            return off < width / 2 ? strong
                : StepsPerBorder > 1 && number % StepsPerBorder == 0 && Math.Abs(off - apart) < width / 2
                    ? strong
                : 0;
        }

        canvas.Add(
            (x, y) =>
            {
                var (one, other) = (Line((x * c) + (y * s) - shiftU), Line((y * c) - (x * s) - shiftV));
                return Math.Abs(one) > Math.Abs(other) ? one : other;
            }
        );
    }

    private void Cell(Canvas canvas, double x, double y)
    {
        var radius = CellPixels * Math.Exp(0.1 * canvas.Normal());
        var strong = canvas.Next(0.22, 0.38);
        var reach = radius + 1;
        canvas.Add(
            (u, v) =>
            {
                var away = Math.Sqrt(Math.Pow(u - x, 2) + Math.Pow(v - y, 2)) / radius;
                return away >= 1 ? 0
                    : Look == CellLook.Bright ? strong
                    : Look == CellLook.Dark ? -strong
                    : away > 0.55 ? -strong
                    : 0.3 * strong;
            },
            (x - reach, y - reach, x + reach, y + reach)
        );
    }

    // Dirt of many corners: a disc whose rim waves.
    private void Speck(Canvas canvas, double radius)
    {
        var (x, y) = (canvas.Next(0, canvas.Across), canvas.Next(0, canvas.Down));
        var (turn, waves, strong) = (canvas.Next(0, 6), canvas.Dice.Next(2, 6), canvas.Next(0.1, 0.3));
        var sign = Look == CellLook.Bright ? 1 : -1;
        canvas.Add(
            (u, v) =>
            {
                var away = Math.Sqrt(Math.Pow(u - x, 2) + Math.Pow(v - y, 2));
                var rim = radius * (1 + (0.3 * Math.Sin((waves * Math.Atan2(v - y, u - x)) + turn)));
                return away < rim ? sign * strong : 0;
            },
            (x - (1.4 * radius), y - (1.4 * radius), x + (1.4 * radius), y + (1.4 * radius))
        );
    }

    private static int Poisson(Canvas canvas, double mean)
    {
        // By the times between happenings.
        var (count, sum) = (0, -Math.Log(1 - canvas.Dice.NextDouble()));
        for (; sum < mean; count++)
        {
            sum -= Math.Log(1 - canvas.Dice.NextDouble());
        }

        return count;
    }
}
