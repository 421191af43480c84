using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Registration;
using Broodtide.Science.Imaging.Spots;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>How a better picture would be taken, and what is no picture of larvae. All pictures are invented.</summary>
public sealed class AdviceTests
{
    private static readonly GridShape Shape = new(320, 240);

    [Fact]
    public void A_good_picture_is_given_no_advice() =>
        Assert.Equal(["one-photo-holds-what-lies-still"], Said(Larvae().Taken()));

    [Fact]
    public void Out_of_focus_is_said()
    {
        var blurred = new float[Shape.Count];
        Blur.Gaussian(Larvae(60).Taken(grain: 0), Shape, 6, blurred);
        Assert.Contains("picture-out-of-focus", Said(Grained(blurred)));
    }

    // Twelve pixels of camera movement: the mean over as many pictures, each a pixel further.
    [Fact]
    public void A_camera_that_moved_while_it_took_the_picture_is_said()
    {
        var sharp = Larvae(40).Taken(grain: 0);
        var smeared = Plain.Each(
            Shape,
            (x, y) =>
                Enumerable
                    .Range(-9, 19)
                    .Average(step => sharp[(y * Shape.Across) + Math.Clamp(x + step, 0, Shape.Across - 1)])
        );
        Assert.Contains("picture-smeared", Said(Grained(smeared)));
    }

    [Fact]
    public void Tiny_things_are_said()
    {
        var scene = new Scenery(Shape, 8);
        for (var i = 0; i < 40; i++)
        {
            scene.Add((15 + (30 * (i % 10)), 30 + (50 * (i / 10))), 1, scene.Next(0, 3), 1.5, 120);
        }

        Assert.Contains("things-too-small", Said(scene.Taken()));
    }

    [Fact]
    public void Things_that_fill_the_picture_are_said()
    {
        var scene = new Scenery(Shape, 8);
        scene.Add((80, 120), 0, 0.4, 28, 120);
        scene.Add((230, 60), 0, 1.9, 28, 120);
        scene.Add((220, 180), 0, 1, 28, 120);
        Assert.Contains("things-too-large", Said(scene.Taken()));
    }

    [Fact]
    public void A_core_burnt_white_is_said_of_one_photo_too()
    {
        var picture = Larvae().Taken();
        for (var y = 0; y < 60; y++)
        {
            picture.AsSpan(y * Shape.Across, 50).Fill(255);
        }

        Assert.Contains("core-too-bright", Said(picture));
    }

    [Fact]
    public void Marks_unlike_each_other_are_said_and_lower_the_least_number()
    {
        var scene = Larvae();
        for (var i = 0; i < 20; i++)
        {
            scene.Add((12 + (15 * i), 232), 0, 0, 3, 45);
        }

        var count = PhotoSpots.Count(scene.Taken(), Shape).Value;
        Assert.Contains(count.Remarks, remark => remark.Code == "photo-holds-doubtful");
        Assert.True(count.Number.Low < 0.5 * count.Number.Middle);
    }

    [Fact]
    public void A_hand_that_moves_between_frames_is_said()
    {
        var shaken = Advice.Shaken([AffineMap.Identity, new(1, 0, 8, 0, 1, 3)], Shape)!;
        Assert.Equal("camera-shook", shaken.Code);
        Assert.Null(Advice.Shaken([AffineMap.Identity, new(1, 0, 2, 0, 1, 1)], Shape));
    }

    // Dark letters on light paper, in lines.
    [Fact]
    public void A_page_of_text_is_refused()
    {
        var dice = new Random(3);
        var picture = new float[Shape.Count];
        Array.Fill(picture, 215f);
        for (var line = 12; line < 230; line += 14)
        {
            for (var x = 10; x < 310; x += 6)
            {
                for (var stroke = 0; stroke < 3 && dice.Next(6) > 0; stroke++)
                {
                    picture.AsSpan(((line + dice.Next(8)) * Shape.Across) + x, 4).Fill(35);
                }
            }
        }

        Assert.Equal("ground-not-dark", Refused(Grained(picture)));
    }

    // A bright oval with two dark places, over a bright base, before a dark ground.
    [Fact]
    public void Head_and_shoulders_are_refused()
    {
        var picture = Plain.Each(
            Shape,
            (x, y) =>
            {
                var face = Math.Pow((x - 160) / 45.0, 2) + Math.Pow((y - 95) / 60.0, 2);
                var shoulders = Math.Pow((x - 160) / 110.0, 2) + Math.Pow((y - 245) / 80.0, 2);
                var eyes = Math.Min(
                    Math.Pow(x - 142, 2) + (3 * Math.Pow(y - 85, 2)),
                    Math.Pow(x - 178, 2) + (3 * Math.Pow(y - 85, 2))
                );
                return face < 1 && eyes < 60 ? 60
                    : face < 1 ? 175 - (50 * face)
                    : shoulders < 1 ? 95 - (20 * shoulders)
                    : 18;
            }
        );
        Assert.Contains(Refused(Grained(picture)), (string[])["only-large-things", "only-grain"]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Nothing_but_texture_is_refused(int seed)
    {
        var dice = new Random(seed);
        var (across, down, aslant) = (dice.NextDouble(), dice.NextDouble(), dice.NextDouble());
        var picture = Plain.Each(
            Shape,
            (x, y) =>
                90
                + (30 * Math.Sin((0.3 + (0.3 * across)) * x) * Math.Sin((0.3 + (0.3 * down)) * y))
                + (15 * Math.Sin((0.2 * aslant * x) + (0.4 * y)))
        );
        Assert.Equal("only-grain", Refused(Grained(picture)));
    }

    [Fact]
    public void A_burst_in_which_nothing_moves_says_so()
    {
        var still = Larvae();
        var frames = Enumerable.Range(0, 4).Select(_ => still.Taken()).ToList();
        var count = BurstSpots.Count(frames, Shape).Value;
        Assert.Equal(0, count.Number.Middle);
        Assert.Contains(count.Remarks, remark => remark.Code == "burst-nothing-moves");
    }

    [Fact]
    public void A_burst_of_specks_that_flicker_is_refused()
    {
        var frames = new List<float[]>();
        for (var frame = 0; frame < 5; frame++)
        {
            var scene = new Scenery(Shape, 700 + frame);
            scene.Add((160, 120), 0, 0, 60, 25);
            for (var i = 0; i < 40; i++)
            {
                scene.Add((scene.Next(8, 312), scene.Next(8, 232)), 0, 0, 0.5, 40);
            }

            frames.Add(scene.Taken());
        }

        Assert.Equal("burst-too-doubtful", BurstSpots.Count(frames, Shape).Reason!.Code);
    }

    // Thirty slender things on a lit ground, wherever there is room.
    private static Scenery Larvae(int bright = 90)
    {
        var scene = new Scenery(Shape, 21);
        for (var i = 0; i < 30; i++)
        {
            scene.Add(
                (30 + (52 * (i % 6)) + scene.Next(-9, 9), 24 + (45 * (i / 6)) + scene.Next(-8, 8)),
                9,
                scene.Next(0, Math.PI),
                3,
                bright + scene.Next(-10, 10)
            );
        }

        return scene;
    }

    private static float[] Grained(float[] picture)
    {
        var grain = new Scenery(Shape, 99).Taken(ground: 100, grain: 0.6);
        return [.. picture.Zip(grain, (value, more) => Math.Clamp(MathF.Round(value) + more - 100, 0, 255))];
    }

    private static List<string> Said(float[] picture)
    {
        Parsed<SpotCount> count = PhotoSpots.Count(picture, Shape);
        Assert.True(count.Succeeded, count.Reason?.Code);
        return [.. count.Value.Remarks.Select(remark => remark.Code)];
    }

    private static string Refused(float[] picture) =>
        PhotoSpots.Count(picture, Shape).Reason?.Code ?? "counted";
}
