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

    // Frames of one scene agree in their light and their large things; the blur, in pixels of the picture looked at,
    // leaves out those that swim.
    private const double LightBlur = 8;
    private const double LeastCorrelation = 0.7;

    // A frame whose count is off the middle one by more than half is left out.
    private const double MostOff = 0.5;

    /// <summary>How many there are.</summary>
    /// <param name="frames">Brightness of each frame, 0 to 255, in the order taken.</param>
    /// <param name="shape">The shape of all, at least 32 by 32.</param>
    /// <returns>
    /// The count; or none, with a code: frames-too-few (frames, least), frames-too-many (frames, most),
    /// frames-differ-in-shape, frames-differ-in-scene (frame), picture-too-small, picture-too-bright,
    /// nothing-stands-out.
    /// </returns>
    /// <exception cref="ArgumentException">The shape has no pixel, or a value is not finite.</exception>
    public static Parsed<BurstCount> Count(IReadOnlyList<float[]> frames, GridShape shape)
    {
        if (Unfit(frames, shape) is { } reason)
        {
            return Parsed<BurstCount>.No(reason);
        }

        var looked = frames.Select(frame => LookedAt.From(frame, shape)).ToList();
        var middle = looked[looked.Count / 2];
        var shifts = looked
            .Select(frame =>
                ReferenceEquals(frame, middle)
                    ? new PixelShift(0, 0, 1)
                    : Alignment.Of(middle.Grid, frame.Grid, middle.Shape)
            )
            .ToList();
        var aligned = looked.Zip(shifts, (frame, shift) => Laid(frame, middle, shift)).ToList();
        var light = aligned.ConvertAll(frame => Blurred(frame, middle.Shape));
        var strange = light.FindIndex(frame =>
            Alignment.Correlation(light[aligned.Count / 2], frame) < LeastCorrelation
        );
        if (strange >= 0)
        {
            return Parsed<BurstCount>.No("frames-differ-in-scene", new Argument("frame", strange + 1));
        }

        var still = Still(aligned, middle.Shape);
        var found = aligned.ConvertAll(frame => MovingThings.In(frame, still, middle.Shape));
        return Parsed<BurstCount>.Of(Told(found, shifts, middle));
    }

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

    // Laid over the middle frame and made as bright as it.
    private static float[] Laid(LookedAt frame, LookedAt middle, PixelShift shift)
    {
        var moved = Alignment.Moved(frame.Grid, frame.Shape, shift);
        Lanes.Scale(moved, middle.Grid.Sum() / Math.Max(1e-6f, moved.Sum()), moved);
        return moved;
    }

    private static float[] Blurred(float[] frame, GridShape shape)
    {
        var blurred = new float[frame.Length];
        Blur.Gaussian(frame, shape, LightBlur, blurred);
        return blurred;
    }

    // What is there in about three of four frames: larvae are bright, so a dark rank shows the ground even where they
    // crowd. Raised to the brightest neighbour, so that an edge that moved by a pixel is no larva.
    private static float[] Still(List<float[]> frames, GridShape shape)
    {
        var still = new float[shape.Count];
        var rank = Math.Max(1, (frames.Count - 1) / 4);
        Span<float> values = stackalloc float[MostFrames];
        values = values[..frames.Count];
        for (var at = 0; at < still.Length; at++)
        {
            for (var frame = 0; frame < frames.Count; frame++)
            {
                values[frame] = frames[frame][at];
            }

            values.Sort();
            still[at] = values[rank];
        }

        Morphology.Dilation(still, shape, 1, still);
        return still;
    }

    private static BurstCount Told(List<MovingThings> found, List<PixelShift> shifts, LookedAt middle)
    {
        var marks = found
            .Zip(
                shifts,
                (things, shift) => things.Regions.Select(r => middle.Mark(r, shift.X, shift.Y)).ToList()
            )
            .ToList();
        var typical = Middle(marks.Select(frame => (double)frame.Count));
        var isUsed = marks.ConvertAll(frame =>
            Math.Abs(frame.Count - typical) <= MostOff * Math.Max(1, typical)
        );
        var used = marks.Where((_, i) => isUsed[i]).ToList();
        var counts = used.ConvertAll(frame => (double)frame.Count);
        var seen = Middle(counts);
        var unit = Middle(found.Select(things => things.UnitArea)) * middle.Factor * middle.Factor;
        var hidden = Middle(used.Select(frame => Crowding.ShareHidden(frame, unit)));
        var between = counts.Sum(count => Math.Pow(count - seen, 2)) / Math.Max(1, counts.Count - 1);
        var deviation = Math.Sqrt((between / Math.Pow(Math.Max(1, seen), 2)) + Math.Pow(Spread.OfBurst, 2));
        var remarks = new List<Remark> { new("burst-misses-what-lies-still") };
        if (used.Count < marks.Count)
        {
            remarks.Add(new("frames-left-out", new Argument("frames", marks.Count - used.Count)));
        }

        if (hidden > 0.1)
        {
            remarks.Add(new("count-crowded", new Argument("hiddenPercent", Math.Round(100 * hidden))));
        }

        return new(
            Spread.Number(seen, hidden, deviation, MayLieStill),
            [
                .. marks.Select(
                    (frame, i) =>
                        new FrameSpots(
                            frame,
                            shifts[i] with
                            {
                                X = shifts[i].X * middle.Factor,
                                Y = shifts[i].Y * middle.Factor,
                            },
                            isUsed[i]
                        )
                ),
            ],
            hidden,
            remarks
        );
    }

    // The median, of an even number the upper one.
    private static double Middle(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted.Count > 0 ? sorted[sorted.Count / 2] : 0;
    }
}
