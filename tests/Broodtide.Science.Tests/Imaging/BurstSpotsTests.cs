using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Science.Tests.Imaging;

public sealed class BurstSpotsTests
{
    private static readonly GridShape Shape = new(320, 240);

    [Fact]
    public void What_swims_is_counted_and_what_lies_still_is_not()
    {
        var frames = Burst([20, 20, 20, 20, 20], still: 25, shake: 2.5);

        var count = BurstSpots.Count(frames, Shape).Value;

        Assert.InRange(count.Number.Middle, 17, 24);
        Assert.True(count.Number.Contains(20));
        Assert.All(count.Frames, frame => Assert.True(frame.IsUsed));
        Assert.Contains(count.Remarks, remark => remark.Code == "burst-misses-what-lies-still");
    }

    [Fact]
    public void The_shake_of_the_hand_is_found()
    {
        var frames = Burst([6, 6, 6], still: 30, shake: 3);
        var shifts = BurstSpots.Count(frames, Shape).Value.Frames.Select(frame => frame.Shift).ToList();
        Assert.Equal(-3, shifts[0].X, 0.3);
        Assert.Equal(3, shifts[2].X, 0.3);
        Assert.All(shifts, shift => Assert.Equal(0, shift.Y, 0.3));
    }

    [Fact]
    public void An_empty_burst_is_none_but_perhaps_a_few()
    {
        var count = BurstSpots.Count(Burst([0, 0, 0, 0], still: 20, shake: 0), Shape).Value;
        Assert.Equal(0, count.Number.Middle);
        Assert.Equal(2, count.Number.High);
        Assert.Equal(0, count.Number.Low);
    }

    [Fact]
    public void A_frame_whose_count_is_off_is_left_out_and_said()
    {
        var count = BurstSpots.Count(Burst([10, 10, 40, 10, 10], still: 20, shake: 0), Shape).Value;
        Assert.Equal([true, true, false, true, true], count.Frames.Select(frame => frame.IsUsed));
        Assert.Contains(count.Remarks, remark => remark.Code == "frames-left-out");
        Assert.InRange(count.Number.Middle, 9, 11);
    }

    [Fact]
    public void Steps_side_by_side_and_one_by_one_say_the_same()
    {
        var frames = Burst([12, 12, 12], still: 10, shake: 2);
        var one = BurstSpots.Count(frames, Shape).Value;
        var backwards = new BackwardHands(2);
        var beside = BurstSpots.Count(frames, Shape, backwards);
        Assert.Equal(one.Number, beside.Value.Number);
        var steps = BurstSpots.Steps(frames, Shape).ToList();
        Assert.True(steps.Count > 10 * backwards.Done);
        Assert.All(steps[..^1], Assert.Null);
        var last = steps[^1]!.Value;
        Assert.Equal(one.Number, last.Number);
        Assert.Equal(one.ShareHidden, last.ShareHidden);
        Assert.Equal(one.Frames.Select(frame => frame.Shift), last.Frames.Select(frame => frame.Shift));
        Assert.Equal(
            one.Frames.SelectMany(frame => frame.Marks),
            last.Frames.SelectMany(frame => frame.Marks)
        );
    }

    // A bubble as long as wide and a moult that drifts by half a pixel a frame, each in every frame; no larva.
    [Fact]
    public void What_is_round_and_what_hardly_drifts_is_no_swimmer()
    {
        var frames = new List<float[]>();
        for (var frame = 0; frame < 5; frame++)
        {
            var scene = new Scenery(Shape, 300 + frame);
            scene.Add((160, 120), 0, 0, 60, 25);
            scene.Add((60, 220 - (35 * frame)), 0, 0, 3, 60);
            scene.Add((220 + (1.5 * frame), 60), 6, 0.4, 2, 70);
            frames.Add(scene.Taken());
        }

        Assert.Equal(0, BurstSpots.Count(frames, Shape).Value.Number.Middle);
    }

    [Fact]
    public void Where_all_that_swims_is_round_the_round_ones_are_counted()
    {
        var frames = new List<float[]>();
        for (var frame = 0; frame < 5; frame++)
        {
            var scene = new Scenery(Shape, 500 + frame);
            scene.Add((100, 160), 0, 0, 70, 60);
            for (var i = 0; i < 20; i++)
            {
                scene.Add(
                    (30 + (60 * (i % 5)) + scene.Next(-18, 18), 35 + (55 * (i / 5)) + scene.Next(-18, 18)),
                    0,
                    0,
                    4,
                    90
                );
            }

            frames.Add(scene.Taken());
        }

        Assert.InRange(BurstSpots.Count(frames, Shape).Value.Number.Middle, 18, 23);
    }

    [Fact]
    public void A_core_burnt_white_widens_the_interval_and_is_said()
    {
        var frames = Burst([20, 20, 20, 20, 20], still: 5, shake: 0);
        var before = BurstSpots.Count(frames, Shape).Value;
        foreach (var frame in frames)
        {
            for (var y = 0; y < 50; y++)
            {
                frame.AsSpan(y * Shape.Across, 50).Fill(255);
            }
        }

        var count = BurstSpots.Count(frames, Shape).Value;
        Assert.Contains(count.Remarks, remark => remark.Code == "core-too-bright");
        Assert.True(
            count.Number.Width / count.Number.Middle > 1.2 * before.Number.Width / before.Number.Middle
        );
    }

    [Fact]
    public void Two_frames_are_too_few_and_eleven_too_many()
    {
        Assert.Equal("frames-too-few", Code(Burst([5, 5], still: 5, shake: 0)));
        Assert.Equal("frames-too-many", Code([.. Enumerable.Repeat(new float[Shape.Count], 11)]));
    }

    [Fact]
    public void Frames_of_another_size_are_refused() =>
        Assert.Equal(
            "frames-differ-in-shape",
            Code([.. Burst([5, 5, 5], still: 5, shake: 0), new float[10]])
        );

    [Fact]
    public void Frames_of_another_scene_are_refused()
    {
        var other = new Scenery(Shape, 77);
        for (var i = 0; i < 30; i++)
        {
            other.Add((other.Next(10, 310), other.Next(10, 230)), 8, other.Next(0, 3), 6, 120);
        }

        Assert.Equal(
            "frames-differ-in-scene",
            Code([.. Burst([5, 5, 5], still: 40, shake: 0), other.Taken()])
        );
    }

    [Fact]
    public void A_black_frame_is_refused() =>
        Assert.Equal(
            "nothing-stands-out",
            Code([.. Burst([5, 5, 5], still: 5, shake: 0), new float[Shape.Count]])
        );

    private static string Code(IReadOnlyList<float[]> frames) => BurstSpots.Count(frames, Shape).Reason!.Code;

    // Each frame its own number of swimmers anywhere; the camera moves to the right by so much from frame to frame.
    private static List<float[]> Burst(int[] swimmers, int still, double shake)
    {
        var places = new Scenery(Shape, 11);
        var dirt = Enumerable
            .Range(0, still)
            .Select(_ =>
                (
                    X: places.Next(10, 310),
                    Y: places.Next(10, 230),
                    Half: places.Next(1, 6),
                    Angle: places.Next(0, 3),
                    Bright: places.Next(40, 120)
                )
            )
            .ToList();
        var frames = new List<float[]>();
        for (var frame = 0; frame < swimmers.Length; frame++)
        {
            var scene = new Scenery(Shape, 100 + frame);
            var right = shake * (frame - (swimmers.Length / 2));
            scene.Add((160 + right, 120), 0, 0, 60, 25);
            dirt.ForEach(thing =>
                scene.Add((thing.X + right, thing.Y), thing.Half, thing.Angle, 2, thing.Bright)
            );
            var taken = new List<(double X, double Y)>();
            while (taken.Count < swimmers[frame])
            {
                var at = (X: scene.Next(12, 308), Y: scene.Next(12, 228));
                // Apart from each other and from the dirt, so that the truth can be told.
                var near = taken.Concat(dirt.Select(thing => (thing.X + right, thing.Y)));
                if (
                    near.All(other =>
                        Math.Pow(other.Item1 - at.X, 2) + Math.Pow(other.Item2 - at.Y, 2) > 16 * 16
                    )
                )
                {
                    taken.Add(at);
                    scene.Add(at, 5, scene.Next(0, 3), 1.8, scene.Next(60, 110));
                }
            }

            frames.Add(scene.Taken());
        }

        return frames;
    }
}
