using System.Buffers.Binary;
using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Broodtide.Workbench.Looking;

namespace Broodtide.Server.Tests.Attacks;

/// <summary>Attempts to read what is not offered, and to fill the memory with little.</summary>
public sealed class FileAttacks(BesiegedHouse house) : IClassFixture<BesiegedHouse>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static TheoryData<string> Ways() =>
        [
            "/api/photos/../../house.db",
            "/api/photos/..%2f..%2fhouse.db",
            "/api/photos/%2e%2e/%2e%2e/house.db",
            "/api/photos/..%252f..%252fhouse.db",
            "/api/photos/..%5c..%5chouse.db",
            "/api/photos/%00",
            "/api/photos/%c0%ae%c0%ae%c0%afhouse.db",
            "/api/photos//etc/passwd",
            "/../../house.db",
            "/..%2f..%2f..%2fhouse.db",
            "/css/..%2f..%2f..%2f..%2fetc%2fpasswd",
            "/language/..%2f..%2fappsettings.json",
            "/appsettings.json",
            "/Broodtide.Server.dll",
            "/house.db",
            "/journal.db",
            "/keys",
            "/keys/",
            "/.well-known/../house.db",
            "/api/calendar/..%2f..%2fhouse.db.ics",
        ];

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task No_path_leads_out_of_what_is_offered(string path)
    {
        // Also for who is signed in, and sent as it stands: a client would tidy the path.
        var answer = await house.Raw(
            $"GET {path} HTTP/1.1\r\nHost: {house.Address.Authority}\r\nConnection: close\r\n\r\n"
        );
        Assert.DoesNotContain("SQLite format 3", answer, StringComparison.Ordinal);
        Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
        Assert.DoesNotContain("\"Logging\"", answer, StringComparison.Ordinal);
        Assert.DoesNotContain("<key id", answer, StringComparison.Ordinal);
        Assert.DoesNotContain("This program cannot be run", answer, StringComparison.Ordinal);
        using var signedIn = await house.Owner.Get(path);
        var text = await signedIn.Content.ReadAsStringAsync(Stop);
        Assert.DoesNotContain("SQLite format 3", text, StringComparison.Ordinal);
        Assert.DoesNotContain("root:", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("photo.jpg")]
    [InlineData("..%2fhouse.db")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("..%2f0000000000000000000000000000000000000000000000000000000000000")]
    public async Task A_photo_can_be_put_under_no_name_but_the_hash_of_its_bytes(string name)
    {
        var before = Everything();
        using var content = new ByteArrayContent(Encoding.ASCII.GetBytes("not a photo"));
        content.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        using var answer = await house.Owner.Send(HttpMethod.Put, $"api/photos/{name}", content, true);
        Assert.InRange((int)answer.StatusCode, 400, 499);
        Assert.Equal(before, Everything());
    }

    // Sixteen thousand million pixels in a few hundred bytes: the header claims them, nothing is decoded.
    [Fact]
    public async Task A_small_picture_that_claims_to_be_huge_is_refused_by_its_header()
    {
        var bomb = Png(130_000, 130_000);
        using var content = new ByteArrayContent(Sent(bomb));
        using var answer = await house.Owner.Send(HttpMethod.Post, PicturesAnswer.Path, content, true);
        var text = await answer.Content.ReadAsStringAsync(Stop);
        Assert.Contains("photo-side-too-long", text, StringComparison.Ordinal);
        await house.Lives();
    }

    // Pixel data that unpack to gigabytes, under a header that claims little.
    [Fact]
    public async Task Pixel_data_that_unpack_too_far_do_not_fill_the_memory()
    {
        var bomb = Png(8, 8, Zlib(new byte[200_000_000]));
        Assert.True(bomb.Length < 1_000_000);
        using var content = new ByteArrayContent(Sent(bomb));
        using var answer = await house.Owner.Send(HttpMethod.Post, PicturesAnswer.Path, content, true);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(
            "\"refused\"",
            await answer.Content.ReadAsStringAsync(Stop),
            StringComparison.Ordinal
        );
        await house.Lives();
    }

    [Fact]
    public async Task A_packed_body_is_not_unpacked()
    {
        using var packed = new MemoryStream();
        await using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            await gzip.WriteAsync(new byte[50_000_000], Stop);
        }

        using var content = new ByteArrayContent(packed.ToArray());
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        content.Headers.ContentEncoding.Add("gzip");
        using var answer = await house.Owner.Send(HttpMethod.Post, "api/journal/give", content, true);
        Assert.InRange((int)answer.StatusCode, 400, 499);
        await house.Lives();
    }

    private string[] Everything() =>
        [
            .. Directory
                .EnumerateFiles(house.Folder.Folder.Parent!.FullName, "*.jpg", SearchOption.TopDirectoryOnly)
                .Concat(
                    Directory.EnumerateFiles(house.Folder.Folder.FullName, "*", SearchOption.AllDirectories)
                )
                .Where(file => !file.EndsWith("-wal", StringComparison.Ordinal))
                .Where(file => !file.EndsWith("-shm", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal),
        ];

    // PNG, W3C recommendation (third edition): signature, IHDR, IDAT, IEND, each with its check sum.
    private static byte[] Png(int width, int height, byte[]? data = null)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        header[8] = 8;
        return
        [
            0x89,
            .. "PNG\r\n\x1a\n"u8,
            .. Chunk("IHDR"u8, header),
            .. Chunk("IDAT"u8, data ?? Zlib(new byte[100])),
            .. Chunk("IEND"u8, []),
        ];
    }

    private static byte[] Chunk(ReadOnlySpan<byte> kind, byte[] data)
    {
        var chunk = new byte[12 + data.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        kind.CopyTo(chunk.AsSpan(4));
        data.CopyTo(chunk, 8);
        BinaryPrimitives.WriteUInt32BigEndian(
            chunk.AsSpan(8 + data.Length),
            Crc32(chunk.AsSpan(4, 4 + data.Length))
        );
        return chunk;
    }

    // As a phone sends it: its length in four bytes, the largest first, and then itself.
    private static byte[] Sent(byte[] picture)
    {
        var length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, picture.Length);
        return [.. length, .. picture];
    }

    private static uint Crc32(ReadOnlySpan<byte> bytes)
    {
        var sum = uint.MaxValue;
        foreach (var one in bytes)
        {
            sum ^= one;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum >> 1) ^ ((sum & 1) == 1 ? 0xEDB88320u : 0);
            }
        }

        return ~sum;
    }

    private static byte[] Zlib(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            zlib.Write(bytes);
        }

        return packed.ToArray();
    }
}
