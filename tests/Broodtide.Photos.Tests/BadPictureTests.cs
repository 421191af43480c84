using Broodtide.Science.Imaging;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Photos.Tests;

/// <summary>From a file that is not as it should be to a reason, never to a confident number.</summary>
public sealed class BadPictureTests
{
    public BadPictureTests() => Painted.Required();

    [Fact]
    public void Sixteen_bits_are_read_by_their_upper_ones()
    {
        var picture = PictureFile
            .Decode(BadPictures.SixteenBitPng(40, 30, (x, _) => x < 20 ? 0x2000 : 0xc0ff))
            .Value;
        var grey = picture.ToGrey();
        Assert.InRange(grey[0], 31, 33);
        Assert.InRange(grey[39], 191, 194);
    }

    [Fact]
    public void Dots_of_sixteen_bits_are_counted()
    {
        // Twelve dots of a radius of three, with a little grain.
        var file = BadPictures.SixteenBitPng(
            160,
            120,
            (x, y) =>
                4000
                + (((x * 31) + (y * 17)) % 7 * 100)
                + (int)(40000 * Math.Exp(-(Math.Pow((x % 40) - 20, 2) + Math.Pow((y % 40) - 20, 2)) / 9))
        );
        Assert.Equal(12, Count(file).Value.Marks.Count);
    }

    [Fact]
    public void A_picture_of_four_inks_of_one_shade_shows_nothing_that_stands_out()
    {
        var picture = PictureFile.Decode(BadPictures.FourInkJpeg()).Value;
        Assert.Equal((32, 32), (picture.Shape.Across, picture.Shape.Down));
        Assert.Equal("nothing-stands-out", Count(picture).Reason!.Code);
    }

    [Fact]
    public void A_moving_WebP_is_refused() =>
        Assert.Equal(
            "picture-moving",
            PictureFile.Decode(BadPictures.MovingWebP(Painted.WebP(isLossless: true))).Reason!.Code
        );

    [Fact]
    public void A_header_of_thirty_thousand_by_thirty_thousand_is_refused_before_it_is_decoded()
    {
        var reason = PictureFile.Decode(BadPictures.ClaimingPng(30_000, 30_000)).Reason!;
        Assert.Equal(("picture-too-large", 30_000), (reason.Code, reason["downPixels"]));
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.9)]
    [InlineData(0.99)]
    public void A_JPEG_that_breaks_off_anywhere_is_refused(double share)
    {
        var whole = Painted.Jpeg(640, 480);
        var reason = PictureFile.Decode(whole.AsSpan(0, (int)(share * whole.Length))).Reason!;
        Assert.Equal("picture-broken-off", reason.Code);
    }

    [Fact]
    public void One_pixel_is_too_small_to_count_in() =>
        Assert.Equal("picture-too-small", Count(Painted.Png(1, 1)).Reason!.Code);

    [Theory]
    [InlineData(0, "nothing-stands-out")]
    [InlineData(255, "picture-too-bright")]
    public void All_black_and_all_white_are_no_numbers(byte shade, string code)
    {
        Assert.Equal(code, Count(Plain(200, 150, shade)).Reason!.Code);
        var burst = Enumerable.Repeat(Plain(200, 150, shade), 5).ToList();
        Assert.Equal(code, Count([.. burst]).Reason!.Code);
    }

    [Fact]
    public void Frames_of_another_size_and_of_another_scene_are_refused()
    {
        var (one, other) = (Scene(200, 150, 1), Scene(220, 150, 1));
        Assert.Equal("frames-differ-in-shape", Count([one, other, one]).Reason!.Code);
        Assert.Equal("frames-differ-in-scene", Count([one, Scene(200, 150, 2), one]).Reason!.Code);
    }

    private static Parsed<PicturesCounted> Count(byte[] file) => Count(PictureFile.Decode(file).Value);

    private static Parsed<PicturesCounted> Count(params Picture[] pictures) =>
        PicturesCounted.Of(
            [.. pictures.Select(picture => picture.ToGrey())],
            [.. pictures.Select(picture => picture.Shape)]
        );

    private static Picture Plain(int across, int down, byte shade)
    {
        var colours = new byte[4 * across * down];
        Array.Fill(colours, shade);
        return new(new GridShape(across, down), colours);
    }

    // Large soft lights, in each scene elsewhere.
    private static Picture Scene(int across, int down, int scene)
    {
        var picture = Plain(across, down, 0);
        var colours = new byte[4 * across * down];
        for (var at = 0; at < across * down; at++)
        {
            var (x, y) = (at % across, at / across);
            var wave = scene == 1 ? Math.Sin(x / 23.0) * Math.Cos(y / 31.0) : Math.Sin((x + (2 * y)) / 17.0);
            Array.Fill(colours, (byte)(100 + (60 * wave)), 4 * at, 4);
        }

        return picture with
        {
            Colours = colours,
        };
    }
}
