using Broodtide.Workbench.Photos;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Icc;
using MetadataExtractor.Formats.Iptc;
using MetadataExtractor.Formats.Jpeg;
using MetadataExtractor.Formats.Photoshop;
using MetadataExtractor.Formats.Xmp;
using NodaTime;
using SkiaSharp;

namespace Broodtide.Photos.Tests;

public sealed class IntakeTests
{
    public static TheoryData<string> Sorts() =>
        ["jpeg", "jpeg, big end first", "png", "webp", "webp without loss"];

    [Theory]
    [MemberData(nameof(Sorts))]
    public void The_planted_place_is_there_before(string sort)
    {
        // Else the next test would prove nothing.
        var (file, _) = Sample(sort);
        var found = Told(file);
        var place = found.OfType<GpsDirectory>().First().GetGeoLocation();
        Assert.Equal(12.575, place!.Latitude, 6);
        Assert.Equal(56.13, place.Longitude, 6);
        Assert.NotEmpty(found.OfType<XmpDirectory>());
        Assert.True(PhotoIntake.Look(file).Value.HoldsPlace);
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void Nothing_is_left_but_the_picture_and_the_way_it_is_turned(string sort)
    {
        var (file, _) = Sample(sort);
        var taken = PhotoIntake.Take(file).Value;
        var found = Told(taken.Bytes);
        Assert.Empty(found.OfType<GpsDirectory>());
        Assert.Empty(found.OfType<XmpDirectory>());
        Assert.Empty(found.OfType<IptcDirectory>());
        Assert.Empty(found.OfType<PhotoshopDirectory>());
        Assert.Empty(found.OfType<JpegCommentDirectory>());
        Assert.Empty(found.OfType<ExifSubIfdDirectory>());
        Assert.Empty(found.OfType<ExifThumbnailDirectory>());
        var exif = Assert.Single(found.OfType<ExifIfd0Directory>());
        Assert.Equal(ExifDirectoryBase.TagOrientation, Assert.Single(exif.Tags).Type);
        Assert.Equal(6, exif.GetInt32(ExifDirectoryBase.TagOrientation));
        foreach (
            var word in new[] { "pond", "12.575", "Invented", "MAKER", "TAIL", "GPS", "prVt", "SOMEBODY" }
        )
        {
            Assert.Equal(-1, taken.Bytes.AsSpan().IndexOf(System.Text.Encoding.ASCII.GetBytes(word)));
        }
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void The_picture_stays_as_it_was(string sort)
    {
        var (file, plain) = Sample(sort);
        var taken = PhotoIntake.Take(file).Value;
        Assert.Equal(Painted.Pixels(file), Painted.Pixels(taken.Bytes));
        Assert.Equal(Painted.Pixels(plain), Painted.Pixels(taken.Bytes));
        // The picture library turns no PNG; MetadataExtractor is asked of it above.
        Assert.Equal(sort == "png" ? 1 : 6, Painted.Orientation(taken.Bytes));
        // The coded pixels themselves: the longest stretch of the plain file is in it unchanged.
        Assert.True(taken.Bytes.AsSpan().IndexOf(plain.AsSpan(plain.Length / 2, plain.Length / 4)) > 0);
        Assert.True(taken.Bytes.Length < file.Length);
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void What_was_taken_in_is_taken_in_again_as_it_is(string sort)
    {
        var once = PhotoIntake.Take(Sample(sort).File).Value;
        var twice = PhotoIntake.Take(once.Bytes).Value;
        Assert.Equal(once.Bytes, twice.Bytes);
        Assert.Equal(once.Sha256, twice.Sha256);
        Assert.False(twice.Look.HoldsMore);
        Assert.False(twice.Look.HoldsPlace);
        Assert.Equal(6, twice.Look.Orientation);
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void Whoever_keeps_the_place_keeps_the_whole_file(string sort)
    {
        var (file, _) = Sample(sort);
        var taken = PhotoIntake.Take(file, keepPlace: true).Value;
        Assert.Equal(file, taken.Bytes);
        Assert.True(taken.PlaceKept);
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void A_photo_without_anything_beside_it_stays_byte_for_byte(string sort)
    {
        var (_, plain) = Sample(sort);
        Assert.Equal(plain, PhotoIntake.Take(plain).Value.Bytes);
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void Size_and_time_are_read_from_the_headers(string sort)
    {
        var look = PhotoIntake.Look(Sample(sort).File).Value;
        Assert.Equal((64, 48), (look.Across, look.Down));
        Assert.Equal(new PhotoTime(new LocalDateTime(2026, 3, 1, 21, 4, 5), Offset.FromHours(2)), look.Taken);
        Assert.Equal(
            Instant.FromUtc(2026, 3, 1, 19, 4, 5),
            look.Taken!.Value.In(DateTimeZoneProviders.Tzdb["America/Chicago"])
        );
    }

    [Fact]
    public void A_camera_without_an_offset_is_believed_to_stand_in_the_house()
    {
        var file = Planted.InJpeg(Painted.Jpeg(), Planted.Exif(offset: null));
        var taken = PhotoIntake.Look(file).Value.Taken!.Value;
        Assert.Null(taken.Offset);
        Assert.Equal(
            Instant.FromUtc(2026, 3, 1, 20, 4, 5),
            taken.In(DateTimeZoneProviders.Tzdb["Europe/Berlin"])
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Every_way_of_turning_is_kept(int orientation)
    {
        foreach (var sort in new[] { "jpeg", "png", "webp" })
        {
            var taken = PhotoIntake.Take(Sample(sort, orientation).File).Value;
            Assert.Equal(orientation, taken.Look.Orientation);
            Assert.Equal(sort == "png" ? 1 : orientation, Painted.Orientation(taken.Bytes));
            // As stored is said by saying nothing.
            Assert.Equal(orientation == 1, !Told(taken.Bytes).OfType<ExifIfd0Directory>().Any());
        }
    }

    [Fact]
    public void A_colour_profile_is_kept()
    {
        using var wide = SKColorSpace.CreateRgb(SKColorSpaceTransferFn.Srgb, SKColorSpaceXyz.DisplayP3);
        var file = Planted.InJpeg(Painted.Jpeg(colours: wide), Planted.Exif());
        var before = Assert.Single(Told(file).OfType<IccDirectory>());
        var taken = PhotoIntake.Take(file).Value;
        var after = Assert.Single(Told(taken.Bytes).OfType<IccDirectory>());
        Assert.Equal(before.Tags.Select(tag => tag.ToString()), after.Tags.Select(tag => tag.ToString()));
        Assert.Equal(Painted.Pixels(file), Painted.Pixels(taken.Bytes));
    }

    [Fact]
    public void A_small_picture_inside_the_density_segment_is_left_behind()
    {
        var jpeg = Painted.Jpeg();
        byte[] density = [.. "JFIF\0"u8, 1, 1, 1, 0, 72, 0, 72, 2, 1, 9, 9, 9, 9, 9, 9];
        byte[] file = [0xff, 0xd8, .. Planted.Segment(0xe0, density), .. jpeg[20..]];
        var taken = PhotoIntake.Take(file).Value;
        Assert.Equal(-1, taken.Bytes.AsSpan().IndexOf("\t\t\t\t\t\t"u8));
        Assert.Equal(Painted.Pixels(file), Painted.Pixels(taken.Bytes));
        Assert.Equal(
            72,
            Assert
                .Single(Told(taken.Bytes).OfType<MetadataExtractor.Formats.Jfif.JfifDirectory>())
                .GetInt32(MetadataExtractor.Formats.Jfif.JfifDirectory.TagResX)
        );
    }

    internal static (byte[] File, byte[] Plain) Sample(string sort, int orientation = 6)
    {
        var exif = Planted.Exif(orientation, isLittle: !sort.Contains("big", StringComparison.Ordinal));
        var plain =
            sort == "png" ? Painted.Png()
            : sort.StartsWith("webp", StringComparison.Ordinal) ? Painted.WebP(isLossless: sort != "webp")
            : Painted.Jpeg();
        return (
            sort == "png" ? Planted.InPng(plain, exif)
            : sort.StartsWith("webp", StringComparison.Ordinal) ? Planted.InWebP(plain, exif)
            : Planted.InJpeg(plain, exif),
            plain
        );
    }

    private static IReadOnlyList<MetadataExtractor.Directory> Told(byte[] file) =>
        ImageMetadataReader.ReadMetadata(new MemoryStream(file));
}
