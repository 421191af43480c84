using System.Numerics;

namespace Broodtide.Science.Imaging;

/// <summary>How far a picture lies from another one.</summary>
/// <param name="X">Pixels to the right by which what is seen in the first lies in the second.</param>
/// <param name="Y">Pixels down by which what is seen in the first lies in the second.</param>
/// <param name="Agreement">
/// Height of the peak of the correlation beside that of a picture with itself, 0 to 1: near 1 for a pure shift, near 0
/// where the two have nothing in common.
/// </param>
public readonly record struct PixelShift(double X, double Y, double Agreement);

/// <summary>
/// The shift between two pictures from the phases of their Fourier transforms (Kuglin and Hines 1975, Proc. IEEE Conf.
/// Cybern. Soc. 163). The phases are weighted as a Gaussian of one pixel's width would, which leaves fine noise out and
/// makes the peak a Gaussian; its middle, a fraction of a pixel, lies at the top of the parabola through the logarithms.
/// </summary>
public static class PhaseCorrelation
{
    /// <summary>The shift from the first picture to the second, up to half the window in each direction.</summary>
    /// <param name="first">One picture, at least 8 by 8.</param>
    /// <param name="second">Another one.</param>
    /// <param name="shape">The shape of both; what is compared is the largest middle part of power-of-two sides.</param>
    /// <exception cref="ArgumentException">A grid has another shape or is smaller than 8 by 8.</exception>
    public static PixelShift Between(ReadOnlySpan<float> first, ReadOnlySpan<float> second, GridShape shape)
    {
        var window = Window(first, second, shape);
        return Compared(Windowed(first, shape, window), Windowed(second, shape, window), window)
            .Last()!
            .Value;
    }

    /// <summary><see cref="Between"/> with pauses: the last is the answer.</summary>
    internal static IEnumerable<PixelShift?> Steps(float[] first, float[] second, GridShape shape)
    {
        var window = Window(first, second, shape);
        return Compared(Windowed(first, shape, window), Windowed(second, shape, window), window);
    }

    private static GridShape Window(ReadOnlySpan<float> first, ReadOnlySpan<float> second, GridShape shape)
    {
        shape.MustFit(first);
        shape.MustFit(second);
        return shape.Across < 8 || shape.Down < 8
            ? throw new ArgumentException("A picture of at least 8 by 8 pixels is needed.", nameof(shape))
            : new GridShape(1 << int.Log2(shape.Across), 1 << int.Log2(shape.Down));
    }

    // Both pictures in one transform, one as the real part and one as the imaginary: what belongs to which is told
    // by how the halves mirror each other.
    private static IEnumerable<PixelShift?> Compared(float[] real, float[] imaginary, GridShape window)
    {
        yield return null;
        Fourier.Plane(real, imaginary, window, isBackward: false);
        yield return null;
        var most = Phases(real, imaginary, window);
        yield return null;
        Fourier.Plane(real, imaginary, window, isBackward: true);
        yield return null;
        yield return Peak(real, window, most);
    }

    // In place the phase of the second picture beside the first at each frequency, weighted; says the sum of weights. A row
    // and the one of the opposite frequencies go together: what one says the other says mirrored.
    private static double Phases(float[] real, float[] imaginary, GridShape window)
    {
        var across = Weights(window.Across);
        var down = Weights(window.Down);
        var (mirrored, turned) = (new float[window.Across], new float[window.Across]);
        for (var y = 0; y <= window.Down / 2; y++)
        {
            var opposite = (window.Down - y) % window.Down;
            var realRow = window.Row(real.AsSpan(), y);
            var imaginaryRow = window.Row(imaginary.AsSpan(), y);
            var realFar = window.Row(real.AsSpan(), opposite);
            var imaginaryFar = window.Row(imaginary.AsSpan(), opposite);
            Mirror(realFar, mirrored);
            Mirror(imaginaryFar, turned);
            PhasesOfRow(realRow, imaginaryRow, mirrored, turned, across, down[y], 1f / window.Count);
            if (opposite != y)
            {
                Mirror(realRow, realFar);
                Mirror(imaginaryRow, imaginaryFar);
                Lanes.Scale(imaginaryFar, -1, imaginaryFar);
            }
        }

        return across.Sum(weight => (double)weight) * down.Sum(weight => (double)weight);
    }

    // The frequency 0 stays, the others change sides.
    private static void Mirror(ReadOnlySpan<float> row, Span<float> target)
    {
        row.CopyTo(target);
        target[1..].Reverse();
    }

    private static void PhasesOfRow(
        Span<float> real,
        Span<float> imaginary,
        ReadOnlySpan<float> realFar,
        ReadOnlySpan<float> imaginaryFar,
        ReadOnlySpan<float> across,
        float down,
        float scale
    )
    {
        var lanes = Vector<float>.Count;
        var (many, weight, none) = (new Vector<float>(scale), new Vector<float>(down), Vector<float>.Zero);
        var x = 0;
        for (; x + lanes <= real.Length; x += lanes)
        {
            var (r, i) = (new Vector<float>(real[x..]) * many, new Vector<float>(imaginary[x..]) * many);
            var far = new Vector<float>(realFar[x..]) * many;
            var farther = new Vector<float>(imaginaryFar[x..]) * many;
            // Twice the transform of each picture.
            var (a, ai, b, bi) = (r + far, i - farther, i + farther, far - r);
            var (re, im) = ((a * b) + (ai * bi), (a * bi) - (ai * b));
            var size = Vector.SquareRoot((re * re) + (im * im));
            var share = Vector.ConditionalSelect(
                Vector.GreaterThan(size, none),
                new Vector<float>(across[x..]) * weight / size,
                none
            );
            (re * share).CopyTo(real[x..]);
            (im * share).CopyTo(imaginary[x..]);
        }

        for (; x < real.Length; x++)
        {
            var (r, i) = (real[x] * scale, imaginary[x] * scale);
            var (far, farther) = (realFar[x] * scale, imaginaryFar[x] * scale);
            var (a, ai, b, bi) = (r + far, i - farther, i + farther, far - r);
            var (re, im) = ((a * b) + (ai * bi), (a * bi) - (ai * b));
            var size = MathF.Sqrt((re * re) + (im * im));
            var share = size > 0 ? across[x] * down / size : 0;
            (real[x], imaginary[x]) = (re * share, im * share);
        }
    }

    // The middle part less its mean, faded to the edge by a Hann window.
    private static float[] Windowed(ReadOnlySpan<float> grid, GridShape shape, GridShape window)
    {
        var (left, top) = ((shape.Across - window.Across) / 2, (shape.Down - window.Down) / 2);
        var mean = 0.0;
        for (var y = 0; y < window.Down; y++)
        {
            mean += Lanes.Mean(shape.Row(grid, top + y).Slice(left, window.Across)) / window.Down;
        }

        var middle = (float)mean;
        var part = new float[window.Count];
        var (across, down) = (Hann(window.Across), Hann(window.Down));
        for (var y = 0; y < window.Down; y++)
        {
            var row = shape.Row(grid, top + y).Slice(left, window.Across);
            var to = window.Row(part.AsSpan(), y);
            Lanes.Add(row, -middle, to);
            Lanes.Multiply(to, across, to);
            Lanes.Scale(to, down[y], to);
        }

        return part;
    }

    private static float[] Hann(int length) =>
        [
            .. Enumerable
                .Range(0, length)
                .Select(at => (float)(0.5 - (0.5 * Math.Cos(2 * Math.PI * (at + 0.5) / length)))),
        ];

    private static PixelShift Peak(float[] answer, GridShape window, double most)
    {
        var best = answer.AsSpan().IndexOf(Ranks.Extremes(answer).High);
        var (y, x) = Math.DivRem(best, window.Across);
        double At(int u, int v) => answer[(Round(v, window.Down) * window.Across) + Round(u, window.Across)];
        return new(
            Signed(x, window.Across) + Beside(At(x - 1, y), At(x, y), At(x + 1, y)),
            Signed(y, window.Down) + Beside(At(x, y - 1), At(x, y), At(x, y + 1)),
            Math.Clamp(answer[best] / most, 0, 1)
        );
    }

    private static int Round(int at, int length) => (at + length) % length;

    private static int Signed(int at, int length) => at >= length / 2 ? at - length : at;

    // The transform of a Gaussian of standard deviation one pixel, at the frequency of each index.
    private static float[] Weights(int length) =>
        [
            .. Enumerable
                .Range(0, length)
                .Select(at => (double)Signed(at, length) / length)
                .Select(frequency => (float)Math.Exp(-2 * Math.PI * Math.PI * frequency * frequency)),
        ];

    private static double Beside(double before, double here, double after)
    {
        if (before <= 0 || here <= 0 || after <= 0)
        {
            return 0;
        }

        var (left, middle, right) = (Math.Log(before), Math.Log(here), Math.Log(after));
        var bend = left - (2 * middle) + right;
        return bend < 0 ? Math.Clamp(0.5 * (left - right) / bend, -0.5, 0.5) : 0;
    }
}
