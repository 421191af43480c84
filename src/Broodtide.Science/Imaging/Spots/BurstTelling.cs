using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>From what was found in each frame of a burst to the answer, with what is to be said beside it.</summary>
internal static class BurstTelling
{
    // A frame whose count is off the middle one by more than half, and by more than one and a half, is left out.
    private const double MostOff = 0.5;
    private const double AnywayOff = 1.5;

    // So many doubtful things that hardly anything clear stands beside are no scene that can be counted, unless what is
    // clear is plain to see; and so many more are said.
    private const double ManyDoubtful = 12;
    private const double ForEachMark = 2;
    private const double HardlyPlainArea = 80;
    private const double WorthSaying = 8;

    // Long things look like one more often than discs of their area would: so many times, on the invented scenes of the
    // seed of development.
    private const double LongOverRound = 3;

    /// <summary>The answer; or none, with the code burst-too-doubtful (number, marks).</summary>
    public static Parsed<BurstCount> Told(BurstCounting counting)
    {
        var (found, looked) = (counting.Found, counting.Looked);
        var marks = found.Zip(counting.Alignments, (things, lies) => Marks(things, lies, looked)).ToList();
        var typical = Middle(marks.Select(frame => (double)frame.Count));
        var isUsed = marks.ConvertAll(frame =>
            Math.Abs(frame.Count - typical) <= Math.Max(AnywayOff, MostOff * typical)
        );
        var used = marks.Where((_, i) => isUsed[i]).ToList();
        var counts = used.ConvertAll(frame => (double)frame.Count);
        var mean = counts.Average();
        var unit = Middle(found.Select(things => things.UnitArea)) * looked.Factor * looked.Factor;
        var discs = Middle(used.Select(frame => Crowding.ShareHidden(frame, unit)));
        var hidden = LongOverRound * discs / (1 + ((LongOverRound - 1) * discs));
        var doubtful = Middle(found.Select(things => (double)things.Left));
        var area = MiddleArea(found);
        if (doubtful > Math.Max(ManyDoubtful, ForEachMark * typical) && area < HardlyPlainArea)
        {
            return Parsed<BurstCount>.No(
                "burst-too-doubtful",
                new Argument("number", doubtful),
                new Argument("marks", typical)
            );
        }

        var number = new BurstNumber(
            typical,
            mean,
            counts.Sum(count => Math.Pow(count - mean, 2)) / Math.Max(1, counts.Count - 1),
            hidden,
            area,
            doubtful,
            counting.White > PhotoFitness.MuchWhite
        );
        return Parsed<BurstCount>.Of(
            new(
                number.Number(),
                [
                    .. marks.Select(
                        (frame, i) => new FrameSpots(frame, Shift(counting.Alignments[i], looked), isUsed[i])
                    ),
                ],
                hidden,
                [.. Remarks(counting, doubtful, marks.Count - used.Count, hidden)]
            )
        );
    }

    private static IEnumerable<Remark> Remarks(
        BurstCounting counting,
        double doubtful,
        int leftOut,
        double hidden
    )
    {
        yield return new("burst-misses-what-lies-still");
        if (counting.Found.All(things => things.Regions.Count == 0))
        {
            yield return new("burst-nothing-moves");
        }

        if (doubtful > WorthSaying)
        {
            yield return new("burst-leaves-doubtful", new Argument("number", doubtful));
        }

        if (counting.White > PhotoFitness.MuchWhite)
        {
            yield return Advice.CoreTooBright(counting.White);
        }

        var (found, looked) = (counting.Found[counting.Middle], counting.Looked);
        foreach (var remark in Advice.Of(looked.Grid, looked.Shape, found.Regions))
        {
            yield return remark;
        }

        if (Advice.Shaken([.. counting.Alignments.Select(lies => lies.Map)], looked.Shape) is { } shaken)
        {
            yield return shaken;
        }

        if (leftOut > 0)
        {
            yield return new("frames-left-out", new Argument("frames", leftOut));
        }

        if (hidden > 0.1)
        {
            yield return new("count-crowded", new Argument("hiddenPercent", Math.Round(100 * hidden)));
        }
    }

    private static List<SpotMark> Marks(MovingThings things, Alignment lies, LookedAt looked) =>
        [
            .. things.Regions.Select(thing =>
            {
                var (x, y) = lies.Map.At(thing.CentreX, thing.CentreY);
                return looked.Mark(thing with { CentreX = x, CentreY = y });
            }),
        ];

    // Of what was marked; plain to see where nothing was.
    private static double MiddleArea(MovingThings[] found)
    {
        var areas = found
            .Where(things => things.Regions.Count > 0)
            .Select(things => Middle(things.Regions.Select(thing => (double)thing.Area)))
            .ToList();
        return areas.Count > 0 ? Middle(areas) : HardlyPlainArea;
    }

    // Of the middle of the picture, in its own pixels.
    private static PixelShift Shift(Alignment lies, LookedAt looked)
    {
        var (x, y) = (looked.Shape.Across / 2.0, looked.Shape.Down / 2.0);
        var (right, down) = lies.Map.At(x, y);
        return new((right - x) * looked.Factor, (down - y) * looked.Factor, lies.Shift.Agreement);
    }

    // The median, of an even number the upper one.
    private static double Middle(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted.Count > 0 ? sorted[sorted.Count / 2] : 0;
    }
}
