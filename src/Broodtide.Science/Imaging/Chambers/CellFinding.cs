namespace Broodtide.Science.Imaging.Chambers;

/// <summary>Cells in a picture without lines: dark or bright, whichever stand out farther, parted where they touch.</summary>
internal static class CellFinding
{
    // Shares and levels are the same for every picture; chosen on invented ones.
    private const double NoiseLevels = 5;
    private const double OfPeak = 0.4;
    private const double LeastArea = 0.35;
    private const double MostArea = 4;
    private const double MostThick = 1.7;
    private const double Standing = 0.15;
    private const double DistanceSmoothing = 0.25;
    private const int LeastPixels = 5;

    /// <summary>With pauses: the last is the answer.</summary>
    public static IEnumerable<Cells?> Steps(Rotated picture)
    {
        var (grid, shape) = (picture.Grid, picture.Shape);
        var flat = Array.ConvertAll(grid, value => float.IsNaN(value) ? 0 : value);
        var soft = new float[shape.Count];
        yield return null;
        foreach (var _ in Blur.GaussianSteps(flat, shape, 1, soft))
        {
            yield return null;
        }

        var noise = Usual(soft, grid);
        yield return null;
        var (dark, bright) = Tones(soft, NoiseLevels * noise);
        yield return null;
        if (dark > bright)
        {
            soft = Array.ConvertAll(soft, value => -value);
        }

        var first = Marked(soft, NoiseLevels * noise);
        var (labels, count) = (new int[shape.Count], 0);
        foreach (var step in Components.Steps(first, shape, labels))
        {
            count = step;
            yield return null;
        }

        if (Things(labels, shape, count).Count == 0)
        {
            yield return new([], 0, dark > bright);
            yield break;
        }

        yield return null;
        var level = Math.Max(NoiseLevels * noise, OfPeak * MiddlePeak(soft, labels, count));
        yield return null;
        var marked = Marked(soft, level);
        foreach (var _ in Fill(marked, shape, labels))
        {
            yield return null;
        }

        foreach (var step in Components.Steps(marked, shape, labels))
        {
            count = step;
            yield return null;
        }

        var things = Things(labels, shape, count);
        if (things.Count == 0)
        {
            yield return new([], 0, dark > bright);
            yield break;
        }

        yield return null;
        var area = MiddleArea(things);
        List<Region> parts = [];
        var dirt = 0;
        foreach (var step in Parted(marked, shape, Math.Sqrt(area / Math.PI)))
        {
            (parts, dirt) = step;
            yield return null;
        }

        if (parts.Count == 0)
        {
            yield return new([], dirt, dark > bright);
            yield break;
        }

        // Once more with single ones: clumps made the middle too large.
        area = MiddleArea(parts);
        var cells = parts
            .Where(part => part.Area >= LeastArea * area && part.Area <= MostArea * area)
            .ToList();
        yield return new(
            [
                .. cells.Select(cell =>
                {
                    var (x, y) = picture.InPicture(cell.CentreX, cell.CentreY);
                    return new ChamberCell(x, y, Math.Sqrt(cell.Area / Math.PI));
                }),
            ],
            dirt + parts.Count(part => part.Area > MostArea * area),
            dark > bright
        );
    }

    private static byte[] Marked(float[] grid, double level) =>
        Array.ConvertAll(grid, value => (byte)(value > level ? 1 : 0));

    // The cubes of what stands out, dark and bright.
    private static (double Dark, double Bright) Tones(float[] soft, double least)
    {
        var (dark, bright) = (0.0, 0.0);
        foreach (var value in soft)
        {
            if (Math.Abs(value) > least)
            {
                var cube = Math.Pow(Math.Abs(value), 3);
                (dark, bright) = value < 0 ? (dark + cube, bright) : (dark, bright + cube);
            }
        }

        return (dark, bright);
    }

    private static List<Region> Things(int[] labels, GridShape shape, int count) =>
        [.. Components.Measure(labels, shape, count).Where(thing => thing.Area >= LeastPixels)];

    // Standard deviation of what is no cell, by the median of what lies inside the picture.
    private static double Usual(float[] soft, float[] grid)
    {
        var inside = new List<float>();
        for (var i = 0; i < soft.Length; i += 3)
        {
            if (!float.IsNaN(grid[i]))
            {
                inside.Add(Math.Abs(soft[i]));
            }
        }

        inside.Sort();
        return inside.Count == 0 ? 1 : Math.Max(0.3, inside[inside.Count / 2] / 0.6745);
    }

    // The peak of the thing in which half of all marked pixels lie or in ones with lower peaks.
    private static double MiddlePeak(float[] soft, int[] labels, int count)
    {
        var (peaks, areas) = (new float[count + 1], new int[count + 1]);
        for (var i = 0; i < soft.Length; i++)
        {
            peaks[labels[i]] = Math.Max(peaks[labels[i]], soft[i]);
            areas[labels[i]]++;
        }

        var order = Enumerable
            .Range(1, count)
            .Where(k => areas[k] >= LeastPixels)
            .OrderBy(k => peaks[k])
            .ToList();
        var half = order.Sum(k => Math.Sqrt(areas[k])) / 2;
        return order.Count == 0 ? 0 : peaks[order.First(k => (half -= Math.Sqrt(areas[k])) <= 0)];
    }

    // Each thing weighs its width: few large pieces of dirt and many specks both weigh less than the cells.
    private static double MiddleArea(List<Region> things)
    {
        var areas = things.Select(thing => (double)thing.Area).Order().ToList();
        var half = areas.Sum(Math.Sqrt) / 2;
        return areas.First(area => (half -= Math.Sqrt(area)) <= 0);
    }

    // A cell whose middle is as light as the ground is a ring: holes that no ground reaches are filled.
    private static IEnumerable<Pause> Fill(byte[] marked, GridShape shape, int[] labels)
    {
        var empty = Array.ConvertAll(marked, value => (byte)(1 - value));
        var count = 0;
        foreach (var step in Components.Steps(empty, shape, labels))
        {
            count = step;
            yield return default;
        }

        var holes = Components.Measure(labels, shape, count);
        yield return default;
        var largest = shape.Count / 50;
        for (var i = 0; i < marked.Length; i++)
        {
            if (labels[i] > 0 && !holes[labels[i] - 1].TouchesEdge && holes[labels[i] - 1].Area < largest)
            {
                marked[i] = 1;
            }
        }

        yield return default;
    }

    private static IEnumerable<(List<Region> Parts, int Dirt)> Parted(
        byte[] marked,
        GridShape shape,
        double radius
    )
    {
        var distance = new float[shape.Count];
        foreach (var _ in Distance.Steps(marked, shape, distance))
        {
            yield return ([], 0);
        }

        for (var i = 0; i < distance.Length; i++)
        {
            distance[i] = float.IsInfinity(distance[i]) ? 0 : distance[i];
        }

        var dirt = TakenOut(marked, shape, distance, MostThick * radius);
        yield return ([], dirt);
        var tops = new float[shape.Count];
        foreach (
            var _ in Blur.GaussianSteps(distance, shape, Math.Max(0.5, DistanceSmoothing * radius), tops)
        )
        {
            yield return ([], dirt);
        }

        for (var i = 0; i < tops.Length; i++)
        {
            tops[i] = marked[i] == 0 ? float.NegativeInfinity : tops[i];
        }

        IReadOnlyList<(Region Thing, int Top)> parts = [];
        foreach (var step in Spots.Parts.Steps(tops, shape, marked, Standing * radius))
        {
            parts = step;
            yield return ([], dirt);
        }

        yield return ([.. parts.Select(part => part.Thing).Where(part => part.Area >= LeastPixels)], dirt);
    }

    // However many cells touch, the thing they make is no thicker than they are; says how many were thicker.
    private static int TakenOut(byte[] marked, GridShape shape, float[] distance, double most)
    {
        var labels = new int[shape.Count];
        var thick = new float[Components.Label(marked, shape, labels) + 1];
        for (var i = 0; i < labels.Length; i++)
        {
            thick[labels[i]] = Math.Max(thick[labels[i]], distance[i]);
        }

        for (var i = 0; i < labels.Length; i++)
        {
            marked[i] = labels[i] > 0 && thick[labels[i]] <= most ? (byte)1 : (byte)0;
        }

        return thick.Skip(1).Count(size => size > most);
    }
}

/// <summary>Cells in pixels of the looked-at picture, how many clumps or pieces of dirt were left out, and their tone.</summary>
internal sealed record Cells(IReadOnlyList<ChamberCell> All, int TooLarge, bool AreDark);
