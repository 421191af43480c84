using System.Buffers.Binary;
using System.Diagnostics;
using System.Text.RegularExpressions;
using Broodtide.Photos.Tests;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Xmp;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(QuietBrowser.Name)]
public sealed partial class PhotoTests(Browsing browsing, ITestOutputHelper output)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_photo_taken_without_a_network_reaches_the_house_and_the_other_phone_without_its_place()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var first = await browsing.NewPhone();
        var one = await Opened.At(first, server.Address);
        await one.Rest();
        await one.GoTo("/photo");
        var photo = await PaintedAsync(one.Page);
        Assert.NotEmpty(Told(photo).OfType<GpsDirectory>());

        await one.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await first.SetOfflineAsync(true);
        await ChooseAsync(one.Page, photo);
        await Assertions.Expect(one.Page.Locator(".photo-preview img")).ToBeVisibleAsync();
        await Assertions.Expect(one.Page.GetByText("Keep the place where it was taken?")).ToBeVisibleAsync();
        await one.Page.Locator("input[type=text]").FillAsync("the film on the third plate");
        await one.Page.GetByText("Keep the photo").ClickAsync();
        await one.Page.WaitForURLAsync(EntryAddress());
        var entry = new Uri(one.Page.Url).PathAndQuery;
        await SeenAsync(one.Page);
        await one.GoTo("/journal");
        await Assertions.Expect(one.Page.GetByText("1 photo waiting")).ToBeVisibleAsync();
        Assert.Empty(Files(server));

        // The app is closed and opened again before there is a network: nothing is lost.
        await one.Page.ReloadAsync();
        await Assertions.Expect(one.Page.GetByText("1 photo waiting")).ToBeVisibleAsync();
        await first.SetOfflineAsync(false);
        await one.Page.ReloadAsync();
        await WaitAsync(() => Files(server).Count == 2);
        await Assertions.Expect(one.Page.GetByText("1 photo waiting")).ToBeHiddenAsync();
        foreach (var file in Files(server))
        {
            var kept = await File.ReadAllBytesAsync(file, Stop);
            Assert.Empty(Told(kept).OfType<GpsDirectory>());
            Assert.Empty(Told(kept).OfType<XmpDirectory>());
            Assert.Empty(Told(kept).OfType<ExifSubIfdDirectory>());
        }

        await using var second = await browsing.NewPhone();
        var two = await Opened.At(second, server.Address);
        await two.Rest();
        await two.GoTo(entry);
        await SeenAsync(two.Page);
        await two.Page.GetByText("See it whole").ClickAsync();
        await Assertions.Expect(two.Page.Locator(".photo-whole img")).ToBeVisibleAsync();
        Assert.Equal(
            1200,
            await two
                .Page.Locator(".photo-whole img")
                .EvaluateAsync<int>("async it => { await it.decode(); return it.naturalHeight; }")
        );
        // The small picture shows the same: turned, and neither stretched nor pressed.
        var differences = await two.Page.EvaluateAsync<double[]>(Differences);
        Assert.InRange(differences[0], 0, 12);
        Assert.InRange(differences[1], 25, 255);

        // Erased on one, it is gone from the house and from the other.
        foreach (var key in new[] { "Erase", "Yes, erase", "Erase everywhere" })
        {
            await two.Page.GetByRole(AriaRole.Button, new() { Name = key, Exact = true }).ClickAsync();
        }

        await WaitAsync(() => Files(server).Count == 0);
        await WaitAsync(async () => await CountAsync(two.Page) == 0);
        await one.Page.ReloadAsync();
        await WaitAsync(async () => await CountAsync(one.Page) == 0);
        Assert.Empty(two.Complaints);
    }

    [Fact]
    public async Task A_photo_goes_with_the_entry_it_was_added_to_and_its_place_is_kept_when_wanted()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo("/journal");
        await opened.Page.Locator(".story .said a").First.ClickAsync();
        await opened.Page.WaitForURLAsync(EntryAddress());
        var entry = new Uri(opened.Page.Url).PathAndQuery;
        await opened.Page.GetByText("Add a photo").ClickAsync();
        var photo = await PaintedAsync(opened.Page);
        await ChooseAsync(opened.Page, photo);
        await opened.Page.GetByLabel("Yes, keep it").CheckAsync();
        await Assertions.Expect(opened.Page.GetByText("The file is kept whole")).ToBeVisibleAsync();
        await opened.Page.GetByText("Keep the photo").ClickAsync();
        await opened.Page.WaitForURLAsync(address => new Uri(address).PathAndQuery == entry);
        await SeenAsync(opened.Page);
        await WaitAsync(() => Files(server).Count == 2);
        var sizes = Files(server).Select(file => new FileInfo(file).Length);
        Assert.Contains(photo.Length, sizes);
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task What_is_no_photo_or_too_large_is_refused_in_words_and_nothing_is_kept()
    {
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, (await browsing.Server()).Address);
        await opened.Rest();
        await opened.GoTo("/photo");
        await RefusedAsync(
            "GIF89a..."u8.ToArray(),
            "This is GIF, which is not kept. Allowed: JPEG, PNG, WebP."
        );
        await RefusedAsync([0, 0, 0, 24, .. "ftypheic"u8, 0, 0, 0, 0], "This is HEIC, which is not kept.");
        await RefusedAsync(Bomb(), "The photo has 60000 by 60000 pixels; a side may have 16383 at most.");
        await RefusedAsync(new byte[25_000_001], "The file has 25.1 MB; a photo may have 25 MB at most.");
        var photo = await PaintedAsync(opened.Page);
        await RefusedAsync(photo[..(photo.Length / 3)], "The JPEG file is cut off: its end is missing.");
        Assert.Equal(0, await CountAsync(opened.Page));
        Assert.Empty(opened.Complaints);

        async Task RefusedAsync(byte[] file, string words)
        {
            await ChooseAsync(opened.Page, file);
            await Assertions.Expect(opened.Page.GetByRole(AriaRole.Alert).First).ToContainTextAsync(words);
        }
    }

    [Fact]
    public async Task Where_there_is_no_room_it_is_said_before_and_the_photo_is_given_out_as_a_file()
    {
        await using var phone = await browsing.NewPhone();
        await phone.AddInitScriptAsync(
            "Object.defineProperty(StorageManager.prototype, 'estimate', { value: async () => ({ quota: 10e6, usage: 9e6 }) });"
        );
        var opened = await Opened.At(phone, (await browsing.Server()).Address);
        await opened.Rest();
        await opened.GoTo("/photo");
        await Assertions.Expect(opened.Page.GetByText("room for about 0 more photos")).ToBeVisibleAsync();
        await ChooseAsync(opened.Page, await PaintedAsync(opened.Page));
        await Assertions.Expect(opened.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("No room");
        await opened.Page.GetByText("Keep the photo").ClickAsync();
        var download = await opened.Page.RunAndWaitForDownloadAsync(() =>
            opened.Page.GetByText("Save the photo as a file").ClickAsync()
        );
        var given = await File.ReadAllBytesAsync(await download.PathAsync(), Stop);
        Assert.Empty(Told(given).OfType<GpsDirectory>());
        Assert.EndsWith("/photo", opened.Page.Url, StringComparison.Ordinal);
        Assert.Equal(0, await CountAsync(opened.Page));
    }

    // To be run by hand: says how long a photo of 12 megapixels takes from the choice to the picture on the screen.
    [Fact(Explicit = true)]
    public async Task How_long_twelve_megapixels_take_on_the_phone()
    {
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, (await browsing.Server()).Address);
        await opened.Rest();
        await opened.GoTo("/photo");
        var photo = await PaintedAsync(opened.Page, 4000, 3000);
        var (shown, kept) = (new List<double>(), new List<double>());
        for (var round = 0; round < 5; round++)
        {
            var began = Stopwatch.GetTimestamp();
            await ChooseAsync(opened.Page, photo);
            await Assertions.Expect(opened.Page.Locator(".photo-preview img")).ToBeVisibleAsync();
            shown.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
            began = Stopwatch.GetTimestamp();
            await opened.Page.GetByText("Keep the photo").ClickAsync();
            await Assertions.Expect(opened.Page.Locator(".photos img").First).ToBeVisibleAsync();
            kept.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
            await opened.GoTo("/photo");
        }

        output.WriteLine(
            $"{photo.Length} bytes; shown after {string.Join(", ", shown.Select(ms => $"{ms:F0}"))} ms; "
                + $"kept and its entry shown after {string.Join(", ", kept.Select(ms => $"{ms:F0}"))} ms"
        );
    }

    // The mean difference of a colour's value between small and whole, and between small and the whole seen in a mirror.
    private const string Differences = """
        async () => {
          const looks = [];
          for (const it of document.querySelectorAll('.photos img, .photo-whole img')) {
            await it.decode();
            const canvas = document.createElement('canvas');
            [canvas.width, canvas.height] = [36, 48];
            const pen = canvas.getContext('2d', { willReadFrequently: true });
            pen.imageSmoothingQuality = 'high';
            pen.drawImage(it, 0, 0, 36, 48);
            looks.push(pen.getImageData(0, 0, 36, 48).data);
            pen.scale(-1, 1);
            pen.drawImage(it, -36, 0, 36, 48);
            looks.push(pen.getImageData(0, 0, 36, 48).data);
          }
          const difference = (one, other) => one.reduce((sum, value, at) => sum + Math.abs(value - other[at]), 0) / one.length;
          return [difference(looks[0], looks[2]), difference(looks[0], looks[3])];
        }
        """;

    private static Task ChooseAsync(IPage page, byte[] file) =>
        page.Locator("input[type=file]")
            .Nth(1)
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "photo.jpg",
                    MimeType = "image/jpeg",
                    Buffer = file,
                }
            );

    // Encoded by the browser itself, with an invented place and more hung into it.
    private static async Task<byte[]> PaintedAsync(IPage page, int across = 1200, int down = 900)
    {
        var text = await page.EvaluateAsync<string>(
            """
            ([across, down]) => {
              const canvas = document.createElement('canvas');
              [canvas.width, canvas.height] = [across, down];
              const pen = canvas.getContext('2d');
              for (let at = 0; at < 400; at++) {
                pen.fillStyle = `hsl(${at * 37 % 360} 60% ${20 + at % 60}%)`;
                pen.fillRect(at * 131 % across, at * 71 % down, across / 13, down / 15);
              }
              return canvas.toDataURL('image/jpeg', 0.9);
            }
            """,
            new[] { across, down }
        );
        return Planted.InJpeg(
            Convert.FromBase64String(text[(text.IndexOf(',', StringComparison.Ordinal) + 1)..]),
            Planted.Exif(orientation: 6)
        );
    }

    private static async Task SeenAsync(IPage page)
    {
        var picture = page.Locator(".photos img").First;
        await Assertions.Expect(picture).ToBeVisibleAsync();
        Assert.Equal(
            480,
            await picture.EvaluateAsync<int>("async it => { await it.decode(); return it.naturalHeight; }")
        );
    }

    private static Task<int> CountAsync(IPage page) =>
        page.EvaluateAsync<int>(
            "async () => { const it = await import('/js/photos.js'); const all = await it.list(); return all ? all.split('\\n').length : 0; }"
        );

    private static IReadOnlyList<string> Files(RunningServer server)
    {
        var folder = Path.Combine(server.DataFolder, "demo", "invented.photos");
        return System.IO.Directory.Exists(folder)
            ?
            [
                .. System
                    .IO.Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                    .Where(file => Path.GetFileName(file).Length == 64),
            ]
            : [];
    }

    private static IReadOnlyList<MetadataExtractor.Directory> Told(byte[] file) =>
        ImageMetadataReader.ReadMetadata(new MemoryStream(file));

    private static Task WaitAsync(Func<bool> until) => WaitAsync(() => Task.FromResult(until()));

    private static async Task WaitAsync(Func<Task<bool>> until)
    {
        for (var tries = 0; tries < 300; tries++)
        {
            if (await until())
            {
                return;
            }

            await Task.Delay(100, Stop);
        }

        Assert.Fail("It did not come to pass within half a minute.");
    }

    private static byte[] Bomb()
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, 60_000);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), 60_000);
        header[8] = 8;
        return
        [
            0x89,
            .. "PNG\r\n\u001a\n"u8,
            .. Planted.Chunk("IHDR", header),
            .. Planted.Chunk("IDAT", [0]),
            .. Planted.Chunk("IEND", []),
        ];
    }

    [GeneratedRegex("/journal/[0-9a-f-]{36}$")]
    private static partial Regex EntryAddress();
}
