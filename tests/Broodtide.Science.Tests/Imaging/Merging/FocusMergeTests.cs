using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Tests.Imaging.Merging;

/// <summary>Invented stacks whose sharp picture is known: a ground that slopes away from the camera.</summary>
public sealed class FocusMergeTests
{
    private static readonly GridShape Shape = new(240, 180);
    private static readonly (double, double) Middle = (119.5, 89.5);
    private static readonly float[] Truth = new BumpyGround(Shape, 5).Seen(Shape, AffineMap.Identity);

    [Fact]
    public void A_sloping_ground_comes_out_sharp_from_end_to_end()
    {
        var merged = Merge(Stack(5));
        Assert.True(merged.IsMerged);
        Assert.Equal(2, merged.Reference);
        Assert.All(merged.Frames, frame => Assert.True(frame.IsUsed));
        Assert.InRange(merged.Frames.Sum(frame => frame.Share), 0.999, 1.001);
        Assert.True(Decibels(merged.Colours.Span) > Stack(5).Max(frame => Decibels(Colours(frame))) + 4);
        Assert.True(merged.Sharpness > 1.2 * merged.Frames[merged.Sharpest].Sharpness);
    }

    [Fact]
    public void Frames_that_shift_and_grow_are_laid_over_the_middle_one()
    {
        var merged = Merge(Stack(5, isMoving: true));
        Assert.All(
            Enumerable.Range(0, 5),
            i => Assert.InRange(merged.Frames[i].Map.Apart(Moved(i), Shape), 0, 0.3)
        );
        Assert.True(Decibels(merged.Colours.Span) > 36);
    }

    // The last cells of 241 by 181 pixels are one pixel wide and high.
    [Fact]
    public void A_picture_whose_last_cells_are_cut_is_whole_to_its_edge()
    {
        var shape = new GridShape(241, 181);
        var frames = Enumerable
            .Range(0, 3)
            .Select(i =>
                Colours(
                    new BumpyGround(shape, 5).Seen(
                        shape,
                        AffineMap.Identity,
                        (x, _) => 1.5 * Math.Abs((x / shape.Across * 2) - i)
                    )
                )
            )
            .ToList();
        var merged = FocusMerge.Of(new([shape, shape, shape], i => frames[i])).Value;
        var truth = Colours(new BumpyGround(shape, 5).Seen(shape, AffineMap.Identity));
        for (var y = 0; y < shape.Down; y++)
        {
            var at = 4 * ((y * shape.Across) + shape.Across - 1);
            Assert.InRange(merged.Colours.Span[at] - truth[at], -40, 40);
        }
    }

    [Fact]
    public void Frames_of_other_brightness_are_made_equal()
    {
        double[] gains = [0.9, 1.1, 1, 1.05, 0.95];
        var merged = Merge([
            .. Stack(5).Select((frame, i) => Array.ConvertAll(frame, v => (float)(v * gains[i]))),
        ]);
        Assert.True(Decibels(merged.Colours.Span) > 36);
    }

    [Fact]
    public void Where_every_frame_is_equally_sharp_the_sharpest_is_returned_and_said()
    {
        var frames = Enumerable
            .Range(0, 3)
            .Select(i => new BumpyGround(Shape, 5).Seen(Shape, AffineMap.Identity, grain: 3, seed: i))
            .ToList();
        var merged = Merge(frames);
        Assert.False(merged.IsMerged);
        Assert.Equal("merge-returns-frame", Assert.Single(merged.Remarks).Code);
        Assert.Equal(merged.Sharpest + 1, merged.Remarks[0]["frame"]);
        Assert.Equal(Colours(frames[merged.Sharpest]), merged.Colours.ToArray());
        Assert.Equal(1, merged.Frames[merged.Sharpest].Share);
    }

    [Fact]
    public void A_frame_of_something_else_is_left_out_and_said()
    {
        var frames = Stack(5);
        frames[4] = new BumpyGround(Shape, 77).Seen(Shape, AffineMap.Identity);
        var merged = Merge(frames);
        Assert.False(merged.Frames[4].IsUsed);
        Assert.Equal(0, merged.Frames[4].Share);
        var said = Assert.Single(merged.Remarks, remark => remark.Code == "merge-frame-left-out");
        Assert.Equal(5, said["frame"]);
    }

    [Fact]
    public void What_moved_between_frames_is_told()
    {
        Assert.DoesNotContain(Merge(Stack(5)).Remarks, remark => remark.Code == "merge-something-moved");
        var frames = Stack(5);
        Blot(frames[3], 90, 60);

        var merged = Merge(frames);
        Assert.Contains(merged.Remarks, remark => remark.Code == "merge-something-moved");
        Assert.True(merged.Frames[3].IsUsed);
        Assert.InRange(merged.ShareMoved, 0.005, 0.1);
    }

    [Fact]
    public void Too_few_too_many_unlike_and_tiny_frames_are_refused()
    {
        Assert.Equal("merge-frames-too-few", Refusal([Shape]));
        Assert.Equal("merge-frames-too-few", Refusal([]));
        Assert.Equal("merge-frames-too-many", Refusal([.. Enumerable.Repeat(Shape, 61)]));
        Assert.Equal("merge-frames-differ-in-shape", Refusal([Shape, Shape, new(180, 240)]));
        Assert.Equal("merge-frame-too-small", Refusal([new(63, 90), new(63, 90)]));
        var strange = new BumpyGround(Shape, 77).Seen(Shape, AffineMap.Identity);
        var answer = FocusMerge.Of(new([Shape, Shape], i => Colours(i == 0 ? strange : Truth)));
        Assert.Equal("merge-frames-differ-in-scene", answer.Reason!.Code);
    }

    [Fact]
    public void Black_and_white_frames_are_refused()
    {
        foreach (var level in new[] { 0f, 255f })
        {
            var flat = Enumerable.Repeat(level, Shape.Count).ToArray();
            Assert.False(FocusMerge.Of(new([Shape, Shape, Shape], _ => Colours(flat))).Succeeded);
        }
    }

    [Fact]
    public void Frames_with_the_wrong_number_of_bytes_are_a_mistake() =>
        Assert.Throws<ArgumentException>(() => FocusMerge.Of(new([Shape, Shape], _ => new byte[12])));

    [Fact]
    public void A_merge_goes_piece_by_piece_and_frames_are_asked_for_one_at_a_time()
    {
        var frames = Stack(3).ConvertAll(Colours);
        var asked = new List<int>();
        var steps = FocusMerge
            .Steps(
                new(
                    [Shape, Shape, Shape],
                    i =>
                    {
                        asked.Add(i);
                        return frames[i];
                    }
                )
            )
            .ToList();
        Assert.Equal([1, 0, 2, 0, 1, 2], asked);
        Assert.True(steps.Count > 40);
        Assert.Equal(steps.Select(step => step.Done).Order(), steps.Select(step => step.Done));
        Assert.All(steps.SkipLast(1), step => Assert.Null(step.Answer));
        Assert.Equal(1, steps[^1].Done);

        asked.Clear();
        Assert.Equal(5, FocusMerge.Steps(new([Shape, Shape, Shape], i => Asked(i))).Take(5).Count());
        Assert.Equal([1], asked);

        ReadOnlyMemory<byte> Asked(int i)
        {
            asked.Add(i);
            return frames[i];
        }
    }

    private static string Refusal(IReadOnlyList<GridShape> shapes) =>
        FocusMerge
            .Of(new(shapes, _ => throw new InvalidOperationException("No frame is needed.")))
            .Reason!.Code;

    private static Merged Merge(IReadOnlyList<float[]> frames) =>
        FocusMerge.Of(new([.. frames.Select(_ => Shape)], i => Colours(frames[i]))).Value;

    // The depth grows from left to right; each frame is sharp at its own, with half a level of grain.
    private static List<float[]> Stack(int many, bool isMoving = false) =>
        [
            .. Enumerable
                .Range(0, many)
                .Select(i =>
                    new BumpyGround(Shape, 5).Seen(
                        Shape,
                        isMoving ? Moved(i) : AffineMap.Identity,
                        (x, _) => 1.5 * Math.Abs((x / Shape.Across * (many - 1)) - i),
                        grain: 0.5,
                        seed: i
                    )
                ),
        ];

    private static AffineMap Moved(int frame) =>
        AffineMap.Similarity(
            Middle,
            1 + (0.004 * (frame - 2)),
            0,
            frame == 2 ? (0, 0) : ((1.3 * frame) - 2, 1.1 - (0.7 * frame))
        );

    private static void Blot(float[] frame, int left, int top)
    {
        for (var y = top; y < top + 48; y++)
        {
            for (var x = left; x < left + 48; x++)
            {
                frame[(y * Shape.Across) + x] += 70;
            }
        }
    }

    private static byte[] Colours(float[] grey)
    {
        var colours = new byte[grey.Length * 4];
        for (var i = 0; i < grey.Length; i++)
        {
            colours.AsSpan(i * 4, 3).Fill((byte)Math.Clamp(Math.Round(grey[i]), 0, 255));
            colours[(i * 4) + 3] = 255;
        }

        return colours;
    }

    // Peak signal-to-noise ratio of the red channel against the sharp ground, 16 pixels at the edge left out.
    private static double Decibels(ReadOnlySpan<byte> colours)
    {
        var (sum, many) = (0.0, 0);
        for (var y = 16; y < Shape.Down - 16; y++)
        {
            for (var x = 16; x < Shape.Across - 16; x++, many++)
            {
                var at = (y * Shape.Across) + x;
                sum += Math.Pow(colours[at * 4] - Math.Clamp(Truth[at], 0, 255), 2);
            }
        }

        return 10 * Math.Log10(255 * 255 / (sum / many));
    }
}
