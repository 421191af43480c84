using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Tests.Imaging.Registration;

/// <summary>Known movements of an invented ground are found again.</summary>
public sealed class ReferenceFrameTests
{
    private static readonly GridShape Shape = new(220, 160);
    private static readonly (double, double) Middle = (109.5, 79.5);

    // Pixels at the corner that is farthest off.
    private const double Sharp = 0.03;
    private const double Blurred = 0.25;

    [Theory]
    [InlineData(1, 0, 0.37, -2.81)]
    [InlineData(1, 0, -31, 17.5)]
    [InlineData(1.025, 0, 3, 1)]
    [InlineData(0.97, 0, -4.2, 2.2)]
    [InlineData(1, 2.5, 0, 0)]
    [InlineData(1.01, -1.5, 6.6, -9.1)]
    public void A_shift_a_turn_and_a_change_of_size_are_found(
        double scale,
        double degrees,
        double right,
        double down
    )
    {
        var map = AffineMap.Similarity(Middle, scale, degrees, (right, down));
        Assert.InRange(Off(map, Movement.Similarity), 0, Sharp);
    }

    [Fact]
    public void Neither_brightness_nor_contrast_nor_grain_moves_a_frame()
    {
        var map = AffineMap.Similarity(Middle, 1.01, 0.5, (2.3, -1.7));
        Assert.InRange(Off(map, Movement.Similarity, light: (0.6, 40)), 0, Sharp);
        Assert.InRange(Off(map, Movement.Similarity, light: (1.3, -20), grain: 2), 0, 2 * Sharp);
    }

    [Fact]
    public void A_frame_out_of_focus_on_one_side_or_all_over_is_laid_right()
    {
        var map = AffineMap.Similarity(Middle, 1.012, 0, (-3.4, 2.6));
        Assert.InRange(Off(map, Movement.Similarity, blur: (_, _) => 4), 0, Blurred);
        Assert.InRange(Off(map, Movement.Similarity, blur: (x, _) => Math.Max(0, x / 30)), 0, 1.5 * Blurred);
    }

    [Fact]
    public void Only_the_map_of_six_numbers_follows_a_stretch()
    {
        var map = new AffineMap(1.03, 0.01, 1, -0.005, 0.985, -2);
        Assert.InRange(Off(map, Movement.Affine), 0, 2 * Sharp);
        Assert.True(Off(map, Movement.Similarity) > 1);
    }

    [Fact]
    public void A_shift_alone_is_found_as_one()
    {
        var map = AffineMap.Similarity(Middle, 1, 0, (5.25, -3.5));
        var found = Register(map, Movement.Shift);
        Assert.Equal(1, found.Map.A);
        Assert.Equal(0, found.Map.C);
        Assert.InRange(found.Map.Apart(map, Shape), 0, Sharp);
    }

    [Fact]
    public void A_frame_over_itself_does_not_move()
    {
        var found = Register(AffineMap.Identity, Movement.Affine);
        Assert.InRange(found.Map.Apart(AffineMap.Identity, Shape), 0, 1e-3);
        Assert.Equal(1, found.Correlation, 1e-6);
    }

    [Fact]
    public void A_picture_of_something_else_is_refused()
    {
        for (var seed = 10; seed < 20; seed++)
        {
            var other = new BumpyGround(Shape, seed).Seen(Shape, AffineMap.Identity);
            var answer = Reference(Movement.Similarity).Register(other);
            Assert.False(answer.Succeeded);
            Assert.Equal("frame-of-another-scene", answer.Reason.Code);
        }
    }

    [Fact]
    public void A_flat_picture_is_refused()
    {
        var flat = Enumerable.Repeat(80f, Shape.Count).ToArray();
        Assert.False(Reference(Movement.Affine).Register(flat).Succeeded);
        Assert.False(ReferenceFrame.Of(flat, Shape, Movement.Affine).Register(flat).Succeeded);
    }

    [Fact]
    public void Too_small_a_picture_is_a_mistake() =>
        Assert.Throws<ArgumentException>(() =>
            ReferenceFrame.Of(new float[31 * 40], new(31, 40), Movement.Shift)
        );

    private static double Off(
        AffineMap map,
        Movement movement,
        Func<double, double, double>? blur = null,
        (double, double) light = default,
        double grain = 0
    ) => Register(map, movement, blur, light, grain).Map.Apart(map, Shape);

    private static Registered Register(
        AffineMap map,
        Movement movement,
        Func<double, double, double>? blur = null,
        (double, double) light = default,
        double grain = 0
    ) => Reference(movement).Register(new BumpyGround(Shape, 3).Seen(Shape, map, blur, light, grain)).Value;

    private static ReferenceFrame Reference(Movement movement) =>
        ReferenceFrame.Of(new BumpyGround(Shape, 3).Seen(Shape, AffineMap.Identity), Shape, movement);
}
