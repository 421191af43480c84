using Broodtide.Units;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// One sharp picture from frames focused at different depths: each frame is laid over the middle one (size changes with
/// focus), made equally bright, and for every place the frames that are sharpest there are chosen (after Nayar and Nakagawa
/// 1994). Where no choice is sharper than the sharpest frame, that frame is the answer and says so. One frame is held at a
/// time.
/// </summary>
public static class FocusMerge
{
    /// <summary>The fewest frames that can be merged.</summary>
    public const int FewestFrames = 2;

    /// <summary>The most frames: more bring grain, not depth.</summary>
    public const int MostFrames = 60;

    /// <summary>The shortest side of a frame, in pixels.</summary>
    public const int ShortestSide = 64;

    /// <summary>The merged picture, in one go.</summary>
    /// <inheritdoc cref="Steps"/>
    public static Parsed<Merged> Of(FocusFrames stack) => Steps(stack).Last().Answer!;

    /// <summary>
    /// The merged picture, piece by piece; whoever stops asking stops the work. The last piece has the answer: a picture; or
    /// none, with a code: merge-frames-too-few (frames, least), merge-frames-too-many (frames, most),
    /// merge-frames-differ-in-shape (frame), merge-frame-too-small (leastPixels) or merge-frames-differ-in-scene (frame).
    /// </summary>
    /// <param name="stack">The frames, in the order of focus.</param>
    /// <exception cref="ArgumentException">A frame has not the colours its shape asks for.</exception>
    public static IEnumerable<MergeStep> Steps(FocusFrames stack)
    {
        if (Unfit(stack.Shapes) is { } reason)
        {
            return [new(MergeWork.Laying, -1, 1, Parsed<Merged>.No(reason))];
        }

        return new MergeRun(stack).Steps();
    }

    /// <summary>Why frames of these shapes cannot be merged, or nothing.</summary>
    public static Remark? Unfit(IReadOnlyList<GridShape> shapes)
    {
        if (shapes.Count < FewestFrames)
        {
            return new(
                "merge-frames-too-few",
                new Argument("frames", shapes.Count),
                new Argument("least", FewestFrames)
            );
        }

        if (shapes.Count > MostFrames)
        {
            return new(
                "merge-frames-too-many",
                new Argument("frames", shapes.Count),
                new Argument("most", MostFrames)
            );
        }

        for (var frame = 1; frame < shapes.Count; frame++)
        {
            if (shapes[frame] != shapes[0])
            {
                return new("merge-frames-differ-in-shape", new Argument("frame", frame + 1));
            }
        }

        return Math.Min(shapes[0].Across, shapes[0].Down) < ShortestSide
            ? new("merge-frame-too-small", new Argument("leastPixels", ShortestSide))
            : null;
    }
}
