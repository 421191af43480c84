using Broodtide.Looking.Invented;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Lengths;

namespace Broodtide.Science.Tests.Imaging;

public sealed class RulerScaleTests
{
    private static readonly GridShape Shape = new(640, 480);

    // Half a per cent is what a scale must hold; every fifth and tenth tick is longer on all of them.
    [Theory]
    [InlineData(5, 0, 2, false)]
    [InlineData(7.734, 2, 8, true)]
    [InlineData(11.3, 31, 2, false)]
    [InlineData(17.9, 45, 8, true)]
    [InlineData(26, 90, 8, false)]
    [InlineData(9.1, 133, 2, true)]
    [InlineData(41, 178, 8, false)]
    public void The_step_of_a_ruler_is_found_at_any_slant(
        double pitch,
        double degrees,
        double noise,
        bool isBright
    )
    {
        var ruler = new Ruler(pitch, degrees, 0.8, noise, 0.4, isBright, IsLettered: true);
        var scale = RulerScale.Find(ruler.Draw(640, 480, 5), Shape, 10).Value;
        Assert.InRange(scale.MicrometresPerPixel.Middle * pitch / 10, 0.995, 1.005);
    }

    [Fact]
    public void Rulers_at_random_are_right_to_half_a_per_cent()
    {
        var dice = new Random(11);
        for (var i = 0; i < 10; i++)
        {
            var ruler = Ruler.Any(dice);
            var scale = RulerScale.Find(ruler.Draw(640, 480, i), Shape, 100);
            Assert.True(scale.Succeeded, $"{scale.Reason} {ruler}");
            Assert.True(
                Math.Abs((scale.Value.StepPixels / ruler.Pitch) - 1) < 0.005,
                $"{scale.Value.StepPixels} found, {ruler}"
            );
        }
    }

    [Fact]
    public void Every_tick_is_marked_once_and_on_its_dark_line()
    {
        // Ticks of three dark columns at 20, 32, 44 ...
        var picture = Plain.Each(
            Shape,
            (x, y) => y is > 100 and < 180 && x is > 15 and < 622 && (x - 19) % 12 < 3 ? 40 : 200
        );
        var scale = RulerScale.Find(picture, Shape, 1_000).Value;

        Assert.Equal(12, scale.StepPixels, 0.01);
        Assert.InRange(scale.Ticks, 49, 51);
        Assert.All(
            scale.Marks,
            mark =>
            {
                Assert.Equal(mark.FromX, mark.ToX, 0.5);
                Assert.InRange(Math.Abs(Math.IEEERemainder(mark.FromX - 20, 12)), 0, 0.5);
                Assert.InRange(mark.FromY, 90, 110);
                Assert.InRange(mark.ToY, 170, 190);
            }
        );
    }

    [Fact]
    public void A_ruler_seen_aslant_is_told_to_change_across()
    {
        // The step grows evenly from 10 pixels on the left to 11 on the right.
        var places = new HashSet<int>();
        for (var (x, step) = (10.0, 10.0); x < 630; x += step, step = 10 + (x / 640))
        {
            places.Add((int)Math.Round(x));
        }

        var picture = Plain.Each(Shape, (x, y) => y is > 100 and < 300 && places.Contains(x) ? 40 : 200);
        var scale = RulerScale.Find(picture, Shape, 100).Value;

        var change = Assert.Single(
            scale.Remarks,
            remark => string.Equals(remark.Code, "scale-changes-across", StringComparison.Ordinal)
        );
        Assert.InRange((double)change["changePercent"]!, 6, 12);
        Assert.True(scale.MicrometresPerPixel.Contains(9.9));
        Assert.True(scale.MicrometresPerPixel.Contains(9.2));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(140)]
    public void A_flat_picture_has_no_ticks(int level) =>
        Assert.Equal(
            "no-ticks-found",
            RulerScale.Find(Plain.Each(Shape, (_, _) => level), Shape, 10).Reason!.Code
        );

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Grain_and_scattered_things_have_no_ticks(int seed)
    {
        var canvas = new Canvas(640, 480, seed);
        canvas.Add((_, _) => 0.3);
        for (var i = 0; i < 60; i++)
        {
            var (x, y, r) = (canvas.Next(0, 640), canvas.Next(0, 480), canvas.Next(3, 15));
            canvas.Add(
                (u, v) => Math.Pow(u - x, 2) + Math.Pow(v - y, 2) < r * r ? 0.3 : 0,
                (x - r, y - r, x + r, y + r)
            );
        }

        var found = RulerScale.Find(canvas.Taken(1, 0.3, 6), Shape, 10);
        Assert.False(found.Succeeded, $"{found.Reason}");
    }

    [Fact]
    public void A_picture_too_small_is_refused() =>
        Assert.Equal("picture-too-small", RulerScale.Find([7], new(1, 1), 10).Reason!.Code);

    [Fact]
    public void A_distance_that_is_none_is_the_mistake_of_a_programmer() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => RulerScale.Find(new float[Shape.Count], Shape, 0));

    [Fact]
    public void Two_taps_give_the_scale_with_the_error_of_fingers()
    {
        var scale = TapScale.Between(new(10, 20, 310, 420), 1_000, 3).Value.MicrometresPerPixel;
        Assert.Equal(2, scale.Middle, 1e-12);

        var dice = new Canvas(1, 1, 4);
        var held = 0;
        for (var i = 0; i < 2_000; i++)
        {
            double Off() => 3 * dice.Normal();
            var taps = new PictureLine(10 + Off(), 20 + Off(), 310 + Off(), 420 + Off());
            held += TapScale.Between(taps, 1_000, 3).Value.MicrometresPerPixel.Contains(2) ? 1 : 0;
        }

        // Nine of ten: 1,800 of 2,000 give or take four standard deviations of 13.4.
        Assert.InRange(held, 1_746, 1_854);
    }

    [Fact]
    public void Taps_too_near_one_another_give_no_scale() =>
        Assert.Equal("taps-too-near", TapScale.Between(new(0, 0, 9, 9), 100, 1).Reason!.Code);
}
