using System.Buffers.Binary;
using System.Text;
using Broodtide.Workbench.Photos;
using CsCheck;

namespace Broodtide.Photos.Tests;

public sealed class RefusalTests
{
    private static readonly Dictionary<string, byte[]> Others = new()
    {
        ["GIF"] = [.. "GIF89a"u8, 1, 0, 1, 0],
        ["TIFF"] = [.. "II*\0"u8, 8, 0, 0, 0],
        ["BMP"] = [.. "BM"u8, 1, 2, 3, 4],
        ["PDF"] = [.. "%PDF-1.7"u8],
        ["SVG"] = [.. "<?xml version='1.0'?><svg xmlns='http://www.w3.org/2000/svg'/>"u8],
        ["HEIC"] = [0, 0, 0, 24, .. "ftypheic"u8, 0, 0, 0, 0, .. "mif1heic"u8],
        ["AVIF"] = [0, 0, 0, 24, .. "ftypavif"u8, 0, 0, 0, 0],
        ["MP4"] = [0, 0, 0, 24, .. "ftypisom"u8, 0, 0, 0, 0],
        ["JPEG XL"] = [0xff, 0x0a, 1, 2],
        ["RIFF"] = [.. "RIFF"u8, 4, 0, 0, 0, .. "WAVE"u8],
        ["something else"] = [.. "a note"u8],
    };

    [Fact]
    public void Whatever_is_not_kept_is_refused_by_its_name() =>
        Assert.All(
            Others,
            other =>
            {
                var reason = PhotoIntake.Take(other.Value).Reason;
                Assert.Equal("photo-kind-not-kept", reason?.Code);
                Assert.Equal(other.Key, reason!["found"]);
                Assert.Equal("JPEG, PNG, WebP", reason["allowed"]);
            }
        );

    [Fact]
    public void An_empty_and_an_endless_file_are_refused()
    {
        Assert.Equal("photo-empty", PhotoIntake.Take([]).Reason?.Code);
        var reason = PhotoIntake.Take(new byte[PhotoLimits.LargestFileBytes + 1]).Reason;
        Assert.Equal("photo-file-too-large", reason?.Code);
        Assert.Equal(25.1, reason!["megabytes"]);
    }

    [Theory]
    [InlineData(60_000, 60_000, "photo-side-too-long")]
    [InlineData(16_384, 1, "photo-side-too-long")]
    [InlineData(16_000, 16_000, "photo-too-many-pixels")]
    [InlineData(8001, 8000, "photo-too-many-pixels")]
    public void A_small_file_that_would_unfold_without_measure_is_refused(int across, int down, string code)
    {
        Assert.Equal(code, PhotoIntake.Take(PngOf(across, down)).Reason?.Code);
        Assert.Equal(code, PhotoIntake.Take(JpegOf(across, down)).Reason?.Code);
    }

    [Fact]
    public void The_most_that_is_allowed_is_taken_in()
    {
        Assert.Equal((8000, 8000), Size(PngOf(8000, 8000)));
        Assert.Equal((16_383, 3906), Size(JpegOf(16_383, 3906)));
    }

    [Fact]
    public void A_webp_whose_header_says_another_size_than_its_picture_is_refused()
    {
        var file = Planted.InWebP(Painted.WebP(), Planted.Exif());
        file[24] = 7;
        Assert.Equal("photo-damaged", PhotoIntake.Take(file).Reason?.Code);
    }

    [Fact]
    public void Moving_pictures_are_refused()
    {
        var file = Planted.InWebP(Painted.WebP(), Planted.Exif());
        file[20] |= 0x02;
        Assert.Equal("photo-moves", PhotoIntake.Take(file).Reason?.Code);
        var named = Planted.Riff([
            .. Planted.RiffChunk("VP8X", [0, 0, 0, 0, 0, 0, 0, 0, 0, 0]),
            .. Planted.RiffChunk("ANMF", new byte[24]),
        ]);
        Assert.Equal("photo-moves", PhotoIntake.Take(named).Reason?.Code);
    }

    [Fact]
    public void A_jpeg_of_endless_scans_is_refused()
    {
        var jpeg = Painted.Jpeg();
        var scan = jpeg.AsSpan().IndexOf<byte>([0xff, 0xda]);
        var scans = Enumerable.Repeat(jpeg[scan..^2], PhotoLimits.MostScans + 1).SelectMany(one => one);
        byte[] file = [.. jpeg[..scan], .. scans, 0xff, 0xd9];
        Assert.Equal("photo-unusual", PhotoIntake.Take(file).Reason?.Code);
    }

    [Theory]
    [MemberData(nameof(IntakeTests.Sorts), MemberType = typeof(IntakeTests))]
    public void A_file_cut_off_anywhere_is_refused_or_loses_only_its_tail(string sort)
    {
        var (file, _) = IntakeTests.Sample(sort);
        var whole = PhotoIntake.Take(file).Value.Bytes;
        for (var length = 0; length < file.Length; length++)
        {
            var read = PhotoIntake.Take(file.AsSpan(0, length));
            if (read.Succeeded)
            {
                Assert.Equal(whole, read.Value.Bytes);
            }
        }
    }

    [Theory]
    [MemberData(nameof(IntakeTests.Sorts), MemberType = typeof(IntakeTests))]
    public void Whatever_stands_in_a_file_it_is_refused_or_taken_in_clean(string sort)
    {
        var (file, _) = IntakeTests.Sample(sort);
        Gen.Select(Gen.Int[0, file.Length - 1], Gen.Byte)
            .Array[1, 12]
            .Sample(
                changes =>
                {
                    var changed = file.ToArray();
                    foreach (var (at, value) in changes)
                    {
                        changed[at] = value;
                    }

                    RequireClean(changed);
                },
                iter: 20_000
            );
    }

    [Fact]
    public void Whatever_follows_a_beginning_it_is_refused_or_taken_in_clean() =>
        Gen.Select(Gen.Int[0, 2], Gen.Byte.Array[0, 200])
            .Sample(
                (beginning, rest) =>
                    RequireClean([
                        .. beginning switch
                        {
                            0 => new byte[] { 0xff, 0xd8, 0xff },
                            1 => [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
                            _ => [.. "RIFF"u8, (byte)(rest.Length + 4), 0, 0, 0, .. "WEBP"u8],
                        },
                        .. rest,
                    ]),
                iter: 20_000
            );

    [Fact]
    public void The_check_of_a_chunk_is_that_of_the_standard()
    {
        // The end of every PNG; and the customary check of this CRC over nine figures.
        Assert.Equal(0xae426082, Crc32.Of("IEND"u8));
        Assert.Equal(0xcbf43926, Crc32.Of("123456789"u8));
        Gen.Byte.Array[0, 300].Sample(bytes => Assert.Equal(Planted.SlowCrc(bytes), Crc32.Of(bytes)));
    }

    private static void RequireClean(byte[] file)
    {
        var read = PhotoIntake.Take(file);
        if (read.Succeeded)
        {
            var again = PhotoIntake.Take(read.Value.Bytes);
            Assert.True(again.Succeeded, again.Reason?.ToString());
            Assert.Equal(read.Value.Bytes, again.Value.Bytes);
            Assert.False(again.Value.Look.HoldsPlace);
        }
    }

    private static (int, int) Size(byte[] file)
    {
        var read = PhotoIntake.Look(file);
        Assert.True(read.Succeeded, read.Reason?.ToString());
        return (read.Value.Across, read.Value.Down);
    }

    // A whole PNG of a few bytes that says any size.
    private static byte[] PngOf(int across, int down)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, across);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), down);
        header[8] = 8;
        return
        [
            0x89,
            .. "PNG\r\n\u001a\n"u8,
            .. Planted.Chunk("IHDR", header),
            .. Planted.Chunk("IDAT", Encoding.ASCII.GetBytes("x")),
            .. Planted.Chunk("IEND", []),
        ];
    }

    private static byte[] JpegOf(int across, int down) =>
        [
            0xff,
            0xd8,
            .. Planted.Segment(
                0xc0,
                [8, (byte)(down >> 8), (byte)down, (byte)(across >> 8), (byte)across, 1, 1, 0x11, 0]
            ),
            .. Planted.Segment(0xda, [1, 1, 0, 0, 63, 0]),
            0x12,
            0xff,
            0xd9,
        ];
}
