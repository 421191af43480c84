using Broodtide.Science;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Spots;
using Broodtide.Units;

namespace Broodtide.Workbench.Looking;

/// <summary>What was marked in one picture of a count.</summary>
/// <param name="Marks">The marks, in pixels of this picture.</param>
/// <param name="IsUsed">Whether its marks went into the number.</param>
public sealed record CountedFrame(IReadOnlyList<SpotMark> Marks, bool IsUsed);

/// <summary>Larvae counted in one photo or in a burst.</summary>
/// <param name="Number">The number behind it: 5, 50 and 95 %.</param>
/// <param name="ShareHidden">Share of all that likely lies over or under another and is not marked, 0 to 1.</param>
/// <param name="Frames">Each picture in the order taken.</param>
/// <param name="Remarks">Why the number is not surer, and what would make a better picture, as codes.</param>
public sealed record PicturesCounted(
    Interval Number,
    double ShareHidden,
    IReadOnlyList<CountedFrame> Frames,
    IReadOnlyList<Remark> Remarks
)
{
    /// <summary>Whether it was a burst: then what lies still is not counted.</summary>
    public bool IsBurst => Frames.Count > 1;

    /// <summary>
    /// The picture that stands for all: of those used the one whose marks are as many as the middle one's, nearest to
    /// the middle of the burst.
    /// </summary>
    public int Shown
    {
        get
        {
            var used = Enumerable.Range(0, Frames.Count).Where(at => Frames[at].IsUsed).ToList();
            if (used.Count == 0)
            {
                return Frames.Count / 2;
            }

            var counts = used.Select(at => Frames[at].Marks.Count).Order().ToList();
            var middle = counts[counts.Count / 2];
            return used.Where(at => Frames[at].Marks.Count == middle)
                .MinBy(at => Math.Abs(at - (Frames.Count / 2)));
        }
    }

    /// <summary>The marks of the picture that stands for all.</summary>
    public IReadOnlyList<SpotMark> Marks => Frames[Shown].Marks;

    /// <summary>Counts the larvae of one picture, or what moves in a burst of three to ten.</summary>
    /// <param name="frames">Brightness of each picture, 0 to 255, in the order taken.</param>
    /// <param name="shapes">The shape of each.</param>
    /// <param name="hands">Who looks at several pictures at the same time; one after another if left out. The same comes of it.</param>
    /// <returns>
    /// The count; or none, with a code: pictures-none, pictures-two, those of <see cref="PhotoSpots.Count"/> and of
    /// <see cref="BurstSpots"/>.
    /// </returns>
    /// <exception cref="ArgumentException">Frames and shapes do not go together, or a value is not finite.</exception>
    public static Parsed<PicturesCounted> Of(
        IReadOnlyList<float[]> frames,
        IReadOnlyList<GridShape> shapes,
        IManyHands? hands = null
    ) =>
        Unfit(frames, shapes) is { } reason ? Parsed<PicturesCounted>.No(reason)
        : frames.Count == 1 ? OfPhoto(PhotoSpots.Count(frames[0], shapes[0]))
        : OfBurst(BurstSpots.Count(frames, shapes[0], hands));

    /// <summary>The same in steps, each none but the last: for whoever may not be held up, or may break it off.</summary>
    /// <param name="frames">Brightness of each picture, 0 to 255, in the order taken.</param>
    /// <param name="shapes">The shape of each.</param>
    /// <exception cref="ArgumentException">Frames and shapes do not go together, or a value is not finite.</exception>
    public static IEnumerable<Parsed<PicturesCounted>?> Steps(
        IReadOnlyList<float[]> frames,
        IReadOnlyList<GridShape> shapes
    ) =>
        Unfit(frames, shapes) is { } reason ? [Parsed<PicturesCounted>.No(reason)]
        : frames.Count == 1
            ? PhotoSpots.Steps(frames[0], shapes[0]).Select(step => step is null ? null : OfPhoto(step))
        : BurstSpots.Steps(frames, shapes[0]).Select(step => step is null ? null : OfBurst(step));

    private static Remark? Unfit(IReadOnlyList<float[]> frames, IReadOnlyList<GridShape> shapes) =>
        frames.Count != shapes.Count ? throw new ArgumentException("Each frame has a shape.", nameof(shapes))
        : frames.Count == 0 ? new("pictures-none")
        : frames.Count == 2 ? new("pictures-two")
        : shapes.Any(shape => shape != shapes[0]) ? new("frames-differ-in-shape")
        : null;

    /// <summary>
    /// The same with marks in pixels of the whole pictures, where what was counted in was made smaller.
    /// </summary>
    /// <param name="times">How many pixels of the whole lie along one of what was counted in, above 0.</param>
    public PicturesCounted Enlarged(double times) =>
        this with
        {
            Frames =
            [
                .. Frames.Select(frame =>
                    frame with
                    {
                        Marks =
                        [
                            // From the middle of one first pixel to the middle of the other.
                            .. frame.Marks.Select(mark => new SpotMark(
                                ((mark.X + 0.5) * times) - 0.5,
                                ((mark.Y + 0.5) * times) - 0.5,
                                mark.Area * times * times
                            )),
                        ],
                    }
                ),
            ],
        };

    private static Parsed<PicturesCounted> OfPhoto(Parsed<SpotCount> count) =>
        count.Succeeded
            ? Parsed<PicturesCounted>.Of(
                new(
                    count.Value.Number,
                    count.Value.ShareHidden,
                    [new(count.Value.Marks, true)],
                    count.Value.Remarks
                )
            )
            : Parsed<PicturesCounted>.No(count.Reason);

    private static Parsed<PicturesCounted> OfBurst(Parsed<BurstCount> count) =>
        count.Succeeded
            ? Parsed<PicturesCounted>.Of(
                new(
                    count.Value.Number,
                    count.Value.ShareHidden,
                    [.. count.Value.Frames.Select(frame => new CountedFrame(frame.Marks, frame.IsUsed))],
                    count.Value.Remarks
                )
            )
            : Parsed<PicturesCounted>.No(count.Reason);
}
