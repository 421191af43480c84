using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Chambers;

/// <summary>
/// A picture of a counting chamber, read: its ruling, its whole squares and its cells. What it says of a culture is told by
/// <see cref="ChamberTally"/>, also after a keeper has added or taken away cells.
/// </summary>
public sealed class ChamberPicture
{
    /// <summary>The longest side that is looked at; a larger picture is halved until it fits.</summary>
    public const int LongestSide = 1_600;

    // A border is told by lines that stand out so much more than the others: it is ruled in three lines.
    private const double BorderStandsOut = 1.25;

    private readonly Lattice _lattice;
    private readonly GridShape _shape;
    private readonly int _factor;

    private ChamberPicture(Lattice lattice, GridShape shape, int factor, Cells cells)
    {
        _lattice = lattice;
        _shape = shape;
        _factor = factor;
        Cells =
        [
            .. cells.All.Select(cell => new ChamberCell(
                cell.X * factor,
                cell.Y * factor,
                cell.Radius * factor
            )),
        ];
        TooLarge = cells.TooLarge;
    }

    /// <summary>What was found, in pixels of the picture.</summary>
    public IReadOnlyList<ChamberCell> Cells { get; }

    /// <summary>Clumps and pieces of dirt more than four times as large as a cell, which are not counted.</summary>
    public int TooLarge { get; }

    /// <summary>Pixels from ruled line to ruled line.</summary>
    public double StepPixels => _lattice.Step * _factor;

    /// <summary>Radius that is taken for a cell that a keeper adds: the middle one of those found, pixels.</summary>
    public double UsualRadius =>
        Cells.Count == 0
            ? StepPixels / 20
            : Cells.Select(cell => cell.Radius).Order().ElementAt(Cells.Count / 2);

    /// <summary>Reads a picture.</summary>
    /// <param name="grey">Brightness, 0 to 255.</param>
    /// <param name="shape">The shape, at least 32 by 32.</param>
    /// <returns>
    /// What is in it; or none, with a code: picture-too-small, nothing-stands-out, or no-grid-found where no lines at even
    /// steps cross others.
    /// </returns>
    /// <exception cref="ArgumentException">The grid has another shape, or a value is not finite.</exception>
    public static Parsed<ChamberPicture> Read(ReadOnlySpan<float> grey, GridShape shape)
    {
        shape.MustFit(grey);
        return Steps(grey.ToArray(), shape).Last()!;
    }

    /// <summary>The same in steps of some hundredths of a second: nothing until the last, which is the answer.</summary>
    /// <inheritdoc cref="Read"/>
    public static IEnumerable<Parsed<ChamberPicture>?> Steps(float[] grey, GridShape shape)
    {
        shape.MustFit<float>(grey);
        RulerScale.MustBeFinite(grey);
        if (shape.Across < 32 || shape.Down < 32)
        {
            yield return Parsed<ChamberPicture>.No("picture-too-small");
            yield break;
        }

        if (Levels.Quantile(grey, 1) - Levels.Quantile(grey, 0) < 8)
        {
            yield return Parsed<ChamberPicture>.No("nothing-stands-out");
            yield break;
        }

        var (picture, factor) = (grey, 1);
        while (Math.Max(shape.Across, shape.Down) > LongestSide)
        {
            var half = new float[shape.Halved().Count];
            Pyramid.Reduce(picture, shape, half);
            (picture, shape, factor) = (half, shape.Halved(), factor * 2);
            yield return null;
        }

        Lattice? lattice = null;
        foreach (var step in LatticeFinding.Steps(picture, shape))
        {
            lattice = step;
            yield return null;
        }

        if (lattice is null)
        {
            yield return Parsed<ChamberPicture>.No("no-grid-found");
            yield break;
        }

        Rotated? turned = null;
        foreach (var step in LinesTaken.Steps(picture, shape, lattice))
        {
            turned = step;
            yield return null;
        }

        Cells? cells = null;
        foreach (var step in CellFinding.Steps(turned!))
        {
            cells = step;
            yield return null;
        }

        yield return Parsed<ChamberPicture>.Of(new(lattice, shape, factor, cells!));
    }

    /// <summary>
    /// The squares of so many steps a side that lie whole in the picture, in the order of reading, with the cells that count
    /// as theirs: those over the upper and the left side, not those over the lower and the right one.
    /// </summary>
    /// <param name="steps">Steps along a side, 1 or more.</param>
    /// <param name="cells">The cells, in pixels of the picture.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one step.</exception>
    public IReadOnlyList<ChamberSquare> Squares(int steps, IReadOnlyList<ChamberCell> cells)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(steps);
        var margin = cells.Count == 0 ? 0 : cells.Max(cell => cell.Radius) / _factor;
        var best = new List<(int I, int J)>();
        foreach (var i in Starts(_lattice.Across, steps))
        {
            foreach (var j in Starts(_lattice.Down, steps))
            {
                var found = Whole(i, j, steps, margin);
                best = found.Count > best.Count ? found : best;
            }
        }

        var counts = best.ToDictionary(square => square, _ => 0);
        foreach (var cell in cells)
        {
            var (i, j) = Home(cell, steps, best);
            if (counts.ContainsKey((i, j)))
            {
                counts[(i, j)]++;
            }
        }

        return
        [
            .. best.OrderBy(square => square.J)
                .ThenBy(square => square.I)
                .Select((square, at) => new ChamberSquare(at + 1, Sides(square, steps), counts[square])),
        ];
    }

    // A cell over a line belongs to the square right of it or below it: its far edge decides.
    private (int I, int J) Home(ChamberCell cell, int steps, List<(int I, int J)> squares)
    {
        if (squares.Count == 0)
        {
            return (int.MinValue, 0);
        }

        var (x, y) = (cell.X / _factor, cell.Y / _factor);
        int Start(LineSet set, int origin)
        {
            var far = set.Number(x, y) + (cell.Radius / _factor / set.Step);
            return origin + ((int)Math.Floor((far - origin) / steps) * steps);
        }

        return (Start(_lattice.Across, squares[0].I), Start(_lattice.Down, squares[0].J));
    }

    private List<(int I, int J)> Whole(int firstI, int firstJ, int steps, double margin)
    {
        var found = new List<(int, int)>();
        var room = margin / _lattice.Step;
        for (var j = firstJ - steps; j < _lattice.Down.Strengths.Count; j += steps)
        {
            for (var i = firstI - steps; i < _lattice.Across.Strengths.Count; i += steps)
            {
                if (
                    IsInside(i - room, j - room)
                    && IsInside(i + steps, j - room)
                    && IsInside(i - room, j + steps)
                    && IsInside(i + steps, j + steps)
                )
                {
                    found.Add((i, j));
                }
            }
        }

        return found;
    }

    private bool IsInside(double i, double j)
    {
        var (x, y) = _lattice.Crossing(i, j);
        return x >= 0 && y >= 0 && x <= _shape.Across - 1 && y <= _shape.Down - 1;
    }

    // Where squares may begin: at the borders if they stand out, else wherever most squares are whole.
    private static IEnumerable<int> Starts(LineSet set, int steps)
    {
        if (steps == 1)
        {
            return [0];
        }

        var means = Enumerable
            .Range(0, steps)
            .Select(start =>
                set.Strengths.Where((_, number) => number % steps == start).DefaultIfEmpty(0).Average()
            )
            .ToList();
        var top = means.IndexOf(means.Max());
        var others = means.Where((_, start) => start != top).Average();
        return means[top] > BorderStandsOut * others ? [top] : Enumerable.Range(0, steps);
    }

    private List<PictureLine> Sides((int I, int J) square, int steps)
    {
        (double X, double Y) At(int i, int j)
        {
            var (x, y) = _lattice.Crossing(square.I + i, square.J + j);
            return (x * _factor, y * _factor);
        }

        var corners = new[] { At(0, 0), At(steps, 0), At(steps, steps), At(0, steps) };
        return
        [
            .. Enumerable
                .Range(0, 4)
                .Select(k => (From: corners[k], To: corners[(k + 1) % 4]))
                .Select(side => new PictureLine(side.From.X, side.From.Y, side.To.X, side.To.Y)),
        ];
    }
}
