using SkiaSharp;

namespace Broodtide.Photos.Tests;

/// <summary>What becomes of the bytes of a picture file.</summary>
public sealed class PictureFileTests
{
    public PictureFileTests() => Painted.Required();

    [Fact]
    public void A_lossless_picture_gives_its_own_colours_and_their_brightness()
    {
        using var painted = new SKBitmap(3, 2, SKColorType.Rgba8888, SKAlphaType.Unpremul);
        painted.Erase(SKColors.Black);
        painted.SetPixel(1, 0, new SKColor(255, 0, 0));
        painted.SetPixel(2, 1, new SKColor(200, 100, 50));
        using var data = painted.Encode(SKEncodedImageFormat.Png, 100);

        var picture = PictureFile.Decode(data.AsSpan()).Value;

        Assert.Equal((3, 2), (picture.Shape.Across, picture.Shape.Down));
        Assert.Equal([0, 76, 0, 0, 0, 124], picture.ToGrey());
        Assert.Equal([0, 0, 0, 0, 0, 50], picture.ToSmallest());
    }

    // EXIF 2.32, tag 274: where the first row and column of the file are seen. A picture bright in its first corner.
    [Theory]
    [InlineData(1, 64, 48, "top left")]
    [InlineData(2, 64, 48, "top right")]
    [InlineData(3, 64, 48, "bottom right")]
    [InlineData(4, 64, 48, "bottom left")]
    [InlineData(5, 48, 64, "top left")]
    [InlineData(6, 48, 64, "top right")]
    [InlineData(7, 48, 64, "bottom right")]
    [InlineData(8, 48, 64, "bottom left")]
    public void A_picture_is_turned_upright(int orientation, int across, int down, string corner)
    {
        using var painted = new SKBitmap(64, 48, SKColorType.Rgba8888, SKAlphaType.Opaque);
        painted.Erase(SKColors.Black);
        for (var at = 0; at < 16 * 16; at++)
        {
            painted.SetPixel(at % 16, at / 16, SKColors.White);
        }

        using var data = painted.Encode(SKEncodedImageFormat.Jpeg, 95);
        var picture = PictureFile.Decode(Planted.InJpeg(data.ToArray(), Planted.Exif(orientation))).Value;

        Assert.Equal((across, down), (picture.Shape.Across, picture.Shape.Down));
        var grey = picture.ToGrey();
        var brightest = Enumerable.Range(0, grey.Length).MaxBy(at => grey[at]);
        var seen =
            (brightest / across < down / 2 ? "top" : "bottom")
            + (brightest % across < across / 2 ? " left" : " right");
        Assert.Equal(corner, seen);
    }

    [Fact]
    public void Bytes_that_are_no_picture_are_refused()
    {
        Assert.Equal("picture-not-readable", PictureFile.Decode("not a picture at all"u8).Reason!.Code);
        Assert.Equal("picture-not-readable", PictureFile.Decode([]).Reason!.Code);
    }

    [Fact]
    public void A_file_that_breaks_off_is_refused()
    {
        var whole = Painted.Jpeg(640, 480);
        Assert.True(PictureFile.Decode(whole).Succeeded);
        Assert.Equal(
            "picture-broken-off",
            PictureFile.Decode(whole.AsSpan(0, whole.Length / 2)).Reason!.Code
        );
    }

    [Fact]
    public void A_picture_of_one_pixel_is_a_picture() =>
        Assert.Equal(1, PictureFile.Decode(Painted.Png(1, 1)).Value.Shape.Count);

    // A GIF of two frames of one pixel, by hand (GIF89a specification).
    [Fact]
    public void A_moving_picture_is_refused()
    {
        byte[] frame = [0x21, 0xF9, 4, 0, 10, 0, 0, 0, 0x2C, 0, 0, 0, 0, 1, 0, 1, 0, 0, 2, 2, 0x44, 1, 0];
        byte[] file =
        [
            .. "GIF89a"u8,
            .. (byte[])[1, 0, 1, 0, 0x80, 0, 0, 0, 0, 0, 255, 255, 255],
            .. frame,
            .. frame,
            0x3B,
        ];
        Assert.Equal("picture-moving", PictureFile.Decode(file).Reason!.Code);
    }

    // Only the header says so: nothing of this size is made.
    [Fact]
    public void A_picture_of_a_thousand_megapixels_is_refused_before_it_is_decoded()
    {
        byte[] file =
        [
            .. "GIF89a"u8,
            .. (byte[])[0x30, 0x75, 0x30, 0x75, 0x80, 0, 0, 0, 0, 0, 255, 255, 255],
            .. (byte[])[0x2C, 0, 0, 0, 0, 0x30, 0x75, 0x30, 0x75, 0, 2, 2, 0x44, 1, 0, 0x3B],
        ];
        var reason = PictureFile.Decode(file).Reason!;
        Assert.Equal("picture-too-large", reason.Code);
        Assert.Equal(30_000, reason["acrossPixels"]);
    }
}
