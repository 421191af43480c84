using System.Runtime.CompilerServices;

namespace Broodtide.Science.Imaging;

/// <summary>
/// How many pixels a grid has across and down. Its values lie row after row, the top row first; the pixel x, y is at
/// y times <see cref="Across"/> plus x. The default has no pixel.
/// </summary>
public readonly record struct GridShape
{
    /// <summary>The longest side, in pixels: beyond any telephone's camera.</summary>
    public const int LongestSide = 32_767;

    /// <summary>The most pixels of one grid, so that a grid of floats stays below 512 MiB.</summary>
    public const int MostPixels = 1 << 27;

    /// <summary>A shape.</summary>
    /// <param name="across">Pixels across, 1 to <see cref="LongestSide"/>.</param>
    /// <param name="down">Pixels down, 1 to <see cref="LongestSide"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A side is outside its range, or there would be more than <see cref="MostPixels"/>.
    /// </exception>
    public GridShape(int across, int down)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(across);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(across, LongestSide);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(down);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(down, LongestSide);
        ArgumentOutOfRangeException.ThrowIfGreaterThan((long)across * down, MostPixels, nameof(down));
        Across = across;
        Down = down;
    }

    /// <summary>Pixels across.</summary>
    public int Across { get; }

    /// <summary>Pixels down.</summary>
    public int Down { get; }

    /// <summary>Pixels in all.</summary>
    public int Count => Across * Down;

    /// <summary>Half the shape, rounded up: the next level of a pyramid.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The shape has no pixel.</exception>
    public GridShape Halved() => new((Across + 1) / 2, (Down + 1) / 2);

    /// <summary>Across and down, for a programmer's eye.</summary>
    public override string ToString() => $"{Across} x {Down}";

    internal void MustFit<T>(ReadOnlySpan<T> grid, [CallerArgumentExpression(nameof(grid))] string name = "")
    {
        if (grid.Length != Count || Count == 0)
        {
            throw new ArgumentException($"{name} holds {grid.Length} values, the shape {this}.", name);
        }
    }

    internal ReadOnlySpan<T> Row<T>(ReadOnlySpan<T> grid, int y) => grid.Slice(y * Across, Across);

    internal Span<T> Row<T>(Span<T> grid, int y) => grid.Slice(y * Across, Across);
}
