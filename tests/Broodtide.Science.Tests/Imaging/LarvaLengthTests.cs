using Broodtide.Looking.Invented;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Imaging;

public sealed class LarvaLengthTests
{
    private static readonly GridShape Shape = new(360, 360);
    private static readonly Interval Scale = Interval.FromNormal(5, 0.01);
    private static readonly LarvaView Plainly = new(180, 0.16, 0.6, 0, 0, true, 0, 0.8, 1, 0);

    [Theory]
    [InlineData(0, 0, 0.5, true)]
    [InlineData(2, 0, 0.5, true)]
    [InlineData(-1.2, 0.8, 1.5, false)]
    [InlineData(0, -0.8, 2.2, true)]
    [InlineData(1.9, 0.5, 0.8, false)]
    public void The_length_alongerthe_bent_axis_is_right_to_two_per_cent(
        double turn,
        double swing,
        double blur,
        bool bright
    )
    {
        foreach (var length in new[] { 60.0, 200 })
        {
            var larva = Plainly with
            {
                Length = length,
                Turn = turn,
                Swing = swing,
                Blur = blur,
                IsBright = bright,
                Noise = 4,
                Limbs = 4,
            };
            var found = LarvaLength.Find(larva.Draw(360, 360, 2).Grey, Shape, Scale).Value;
            Assert.InRange(found.Pixels / length, 0.98, 1.02);
            Assert.Equal(5 * found.Pixels, found.Micrometres.Middle, 1e-6);
        }
    }

    // 90 % of intervals hold: of 40 not below 30 but once in four hundred.
    [Fact]
    public void Intervals_hold_the_length_of_larvae_at_random()
    {
        var dice = new Random(8);
        var held = 0;
        for (var i = 0; i < 40; i++)
        {
            var larva = LarvaView.Any(dice);
            larva = larva with { Length = Math.Min(larva.Length, 250) };
            var scale = 5 + (0.01 * new Canvas(1, 1, i).Normal());
            var found = LarvaLength.Find(
                larva.Draw(360, 360, i).Grey,
                Shape,
                Interval.FromNormal(scale, 0.01)
            );
            Assert.True(found.Succeeded, $"{found.Reason} {larva}");
            held += found.Value.Micrometres.Contains(5 * larva.Length) ? 1 : 0;
        }

        Assert.InRange(held, 30, 40);
    }

    [Fact]
    public void The_axis_runs_from_end_to_end_within_the_larva()
    {
        var (grey, axis) = (Plainly with { Turn = 1.5 }).Draw(360, 360, 3);
        var found = LarvaLength.Find(grey, Shape, Scale).Value;

        Assert.All(found.Axis, place => Assert.InRange(axis.Min(it => Apart(it, place)), 0, 4));
        // Which end comes first is nobody's choice.
        double Ends((double, double) first, (double, double) last) =>
            Math.Max(Apart(first, found.Axis[0]), Apart(last, found.Axis[^1]));
        Assert.InRange(Math.Min(Ends(axis[0], axis[^1]), Ends(axis[^1], axis[0])), 0, 4);
        Assert.Equal(0.16 * 180, found.WidthPixels, 2.5);
    }

    [Fact]
    public void A_tap_chooses_which_of_two_is_measured()
    {
        var (longer, shorter) = (
            (Plainly with { Length = 140 }).Draw(360, 360, 4).Grey,
            (Plainly with { Length = 80 }).Draw(360, 360, 5).Grey
        );
        var shape = new GridShape(720, 360);
        var both = Plain.Each(
            shape,
            (x, y) => x < 360 ? longer[(y * 360) + x] : shorter[(y * 360) + x - 360]
        );

        Assert.Equal(140, LarvaLength.Find(both, shape, Scale).Value.Pixels, 3.0);
        Assert.Equal(80, LarvaLength.Find(both, shape, Scale, (540, 180)).Value.Pixels, 2.0);
        Assert.Equal("no-larva-there", LarvaLength.Find(both, shape, Scale, (20, 20)).Reason!.Code);
    }

    [Fact]
    public void A_larva_that_reaches_the_edge_is_not_measured()
    {
        var shape = new GridShape(180, 360);
        var grey = (Plainly with { Turn = 0.2 }).Draw(360, 360, 6).Grey;
        Assert.Equal(
            "larva-cut-off",
            LarvaLength.Find(Plain.Each(shape, (x, y) => grey[(y * 360) + x]), shape, Scale).Reason?.Code
        );
    }

    [Fact]
    public void A_disc_has_no_length()
    {
        var canvas = new Canvas(360, 360, 1);
        canvas.Add((x, y) => Math.Pow(x - 180, 2) + Math.Pow(y - 180, 2) < 1_600 ? 0.6 : 0.2);
        var found = LarvaLength.Find(canvas.Taken(1, 0, 1), Shape, Scale);
        Assert.False(found.Succeeded);
        Assert.Contains(found.Reason.Code, new[] { "larva-not-long", "larva-too-small" });
    }

    [Theory]
    [InlineData(0)]
    [InlineData(200)]
    public void A_flat_picture_is_refused(float level) =>
        Assert.Equal(
            "nothing-stands-out",
            LarvaLength.Find([.. Enumerable.Repeat(level, Shape.Count)], Shape, Scale).Reason!.Code
        );

    [Fact]
    public void Taps_alongera_larva_are_added_up()
    {
        var found = LarvaLength.Tapped([(0, 0), (30, 40), (90, 40)], 2, Scale).Value;
        Assert.Equal(110, found.Pixels, 1e-9);
        Assert.Equal(550, found.Micrometres.Middle, 1e-9);
        Assert.True(found.Micrometres.Contains(545) && found.Micrometres.Contains(556));
        Assert.Equal("larva-too-small", LarvaLength.Tapped([(0, 0), (10, 0)], 2, Scale).Reason!.Code);
    }

    private static double Apart((double X, double Y) one, (double X, double Y) other) =>
        Math.Sqrt(Math.Pow(one.X - other.X, 2) + Math.Pow(one.Y - other.Y, 2));
}
