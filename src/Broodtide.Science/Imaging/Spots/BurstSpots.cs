using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// Counts what moves in a burst: the frames are laid over each other, what is there in nearly all of them is taken away
/// and the rest counted frame by frame (after Mallard, Le Bourlot and Tully 2013, PLoS ONE 8(5):e64387). What lies still
/// is not counted, be it dirt, a bubble or a larva.
/// </summary>
public static class BurstSpots
{
    /// <summary>The fewest frames: from two alone nobody can say what stays.</summary>
    public const int FewestFrames = 3;

    /// <summary>The most frames looked at.</summary>
    public const int MostFrames = 10;

    // Share of larvae that may lie still during a burst: the renderer of the invented scenes supposes one in ten; no
    // source for living ones. It raises the upper end only.
    private const double MayLieStill = 0.1;

    // Doubtful things beside few clear ones, on the invented scenes of the seed of development: 95 % of frames had fewer.
    private const double UsuallyLeft = 8;

    // Share of white pixels from which on the light itself hides larvae, and what it adds to the deviation: our choice.
    private const double MuchWhite = 0.02;
    private const double OfTooBright = 0.15;

    // A frame whose count is off the middle one by more than half is left out.
    private const double MostOff = 0.5;

    /// <summary>How many there are.</summary>
    /// <param name="frames">Brightness of each frame, 0 to 255, in the order taken.</param>
    /// <param name="shape">The shape of all, at least 32 by 32.</param>
    /// <param name="sideBySide">
    /// Does something for each number from 0 up to another, at most as many at a time as are wanted; none for one after
    /// the other.
    /// </param>
    /// <returns>
    /// The count; or none, with a code: frames-too-few (frames, least), frames-too-many (frames, most),
    /// frames-differ-in-shape, frames-differ-in-scene (frame), picture-too-small, picture-too-bright,
    /// nothing-stands-out.
    /// </returns>
    /// <exception cref="ArgumentException">The shape has no pixel, or a value is not finite.</exception>
    public static Parsed<BurstCount> Count(
        IReadOnlyList<float[]> frames,
        GridShape shape,
        Action<int, Action<int>>? sideBySide = null
    )
    {
        if (Unfit(frames, shape) is { } reason)
        {
            return Parsed<BurstCount>.No(reason);
        }

        var counting = new BurstCounting(frames, shape);
        foreach (var (parts, part) in counting.Stages())
        {
            (sideBySide ?? OneByOne)(parts, at => part(at).Whole());
        }

        return Answer(counting);
    }

    /// <summary>The same in steps of some hundredths of a second: nothing until the last, which is the answer.</summary>
    /// <inheritdoc cref="Count"/>
    public static IEnumerable<Parsed<BurstCount>?> Steps(IReadOnlyList<float[]> frames, GridShape shape)
    {
        if (Unfit(frames, shape) is { } reason)
        {
            yield return Parsed<BurstCount>.No(reason);
            yield break;
        }

        var counting = new BurstCounting(frames, shape);
        foreach (var (parts, part) in counting.Stages())
        {
            for (var at = 0; at < parts; at++)
            {
                foreach (var _ in part(at))
                {
                    yield return null;
                }
            }
        }

        yield return Answer(counting);
    }

    private static void OneByOne(int parts, Action<int> part)
    {
        for (var at = 0; at < parts; at++)
        {
            part(at);
        }
    }

    private static Parsed<BurstCount> Answer(BurstCounting counting) =>
        counting.Strange is { } strange
            ? Parsed<BurstCount>.No("frames-differ-in-scene", new Argument("frame", strange + 1))
            : Parsed<BurstCount>.Of(Told(counting));

    private static Remark? Unfit(IReadOnlyList<float[]> frames, GridShape shape)
    {
        if (frames.Count < FewestFrames)
        {
            return new("frames-too-few", new("frames", frames.Count), new("least", FewestFrames));
        }

        if (frames.Count > MostFrames)
        {
            return new("frames-too-many", new("frames", frames.Count), new("most", MostFrames));
        }

        if (frames.Any(frame => frame.Length != shape.Count))
        {
            return new("frames-differ-in-shape");
        }

        return shape.Across < 32 || shape.Down < 32
            ? new("picture-too-small")
            : frames
                .Select(frame => PhotoSpots.Unfit(frame, shape))
                .FirstOrDefault(reason => reason is not null);
    }

    private static BurstCount Told(BurstCounting counting)
    {
        var (found, looked) = (counting.Found, counting.Looked);
        var marks = found
            .Zip(
                counting.Alignments,
                (things, lies) =>
                    things
                        .Regions.Select(thing =>
                        {
                            var (x, y) = lies.Map.At(thing.CentreX, thing.CentreY);
                            return looked.Mark(thing with { CentreX = x, CentreY = y });
                        })
                        .ToList()
            )
            .ToList();
        var typical = Middle(marks.Select(frame => (double)frame.Count));
        var isUsed = marks.ConvertAll(frame =>
            Math.Abs(frame.Count - typical) <= MostOff * Math.Max(1, typical)
        );
        var used = marks.Where((_, i) => isUsed[i]).ToList();
        var counts = used.ConvertAll(frame => (double)frame.Count);
        var seen = Middle(counts);
        var unit = Middle(found.Select(things => things.UnitArea)) * looked.Factor * looked.Factor;
        var hidden = Middle(used.Select(frame => Crowding.ShareHidden(frame, unit)));
        var between = counts.Sum(count => Math.Pow(count - seen, 2)) / Math.Max(1, counts.Count - 1);
        var deviation = Math.Sqrt((between / Math.Pow(Math.Max(1, seen), 2)) + Math.Pow(Spread.OfBurst, 2));
        var remarks = new List<Remark> { new("burst-misses-what-lies-still") };
        // So many that seem to move and are no larvae are usual: edges of dirt, bubbles, moults.
        var doubtful = Math.Max(0, Middle(found.Select(things => (double)things.Left)) - UsuallyLeft);
        if (doubtful > 0)
        {
            remarks.Add(new("burst-leaves-doubtful", new Argument("number", doubtful)));
        }

        if (counting.White > MuchWhite)
        {
            deviation += OfTooBright;
            remarks.Add(
                new("core-too-bright", new Argument("whitePercent", Math.Round(100 * counting.White)))
            );
        }

        var area = Middle(found.Where(things => things.Regions.Count > 0).Select(things => things.UnitArea));
        if (area > 0 && area < 2 * Clearness.LeastArea)
        {
            remarks.Add(new("things-too-small", new Argument("areaPixels", Math.Round(area))));
        }

        if (used.Count < marks.Count)
        {
            remarks.Add(new("frames-left-out", new Argument("frames", marks.Count - used.Count)));
        }

        if (hidden > 0.1)
        {
            remarks.Add(new("count-crowded", new Argument("hiddenPercent", Math.Round(100 * hidden))));
        }

        return new(
            Spread.Number(seen, hidden, deviation, MayLieStill, doubtful),
            [
                .. marks.Select(
                    (frame, i) => new FrameSpots(frame, Shift(counting.Alignments[i], looked), isUsed[i])
                ),
            ],
            hidden,
            remarks
        );
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
