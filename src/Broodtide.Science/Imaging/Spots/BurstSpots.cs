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

    /// <summary>How many there are.</summary>
    /// <param name="frames">Brightness of each frame, 0 to 255, in the order taken.</param>
    /// <param name="shape">The shape of all, at least 32 by 32.</param>
    /// <param name="hands">Who looks at several frames at the same time; one after another if left out. The same comes of it.</param>
    /// <returns>
    /// The count; or none, with a code: frames-too-few (frames, least), frames-too-many (frames, most),
    /// frames-differ-in-shape, frames-differ-in-scene (frame), picture-too-small, picture-too-bright,
    /// nothing-stands-out, ground-not-dark, burst-too-doubtful (number, marks).
    /// </returns>
    /// <exception cref="ArgumentException">The shape has no pixel, or a value is not finite.</exception>
    public static Parsed<BurstCount> Count(
        IReadOnlyList<float[]> frames,
        GridShape shape,
        IManyHands? hands = null
    )
    {
        if (Unfit(frames, shape) is { } reason)
        {
            return Parsed<BurstCount>.No(reason);
        }

        var counting = new BurstCounting(frames, shape);
        foreach (var (parts, part) in counting.Stages())
        {
            (hands ?? OneHand.Only).Do(parts, at => part(at).Whole());
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

    private static Parsed<BurstCount> Answer(BurstCounting counting) =>
        counting.Strange is { } strange
            ? Parsed<BurstCount>.No("frames-differ-in-scene", new Argument("frame", strange + 1))
            : BurstTelling.Told(counting);

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
                .Select(frame => PhotoFitness.Unfit(frame, shape))
                .FirstOrDefault(reason => reason is not null);
    }
}
