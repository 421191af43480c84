using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(WritingBrowser.Name)]
public sealed class LookCountTests(Browsing browsing)
{
    private static readonly string[] Frames = ["one.png", "two.png", "three.png", "four.png", "five.png"];

    [Fact]
    public async Task A_burst_is_counted_without_a_network_its_marks_are_corrected_by_tap_and_by_key_and_it_is_written()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo("/look/count");
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await phone.SetOfflineAsync(true);
        await opened.Page.GetByLabel("Container and lamp").FillAsync("invented dish");
        await opened
            .Page.Locator("input[type=file][multiple]")
            .SetInputFilesAsync([.. Frames.Select((name, at) => File(name, Frame(at)))]);
        await Button(opened, "Count them").ClickAsync();

        var board = opened.Page.Locator(".board svg");
        await Assertions.Expect(board).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Assertions.Expect(opened.Page.GetByText("counted on the phone")).ToBeVisibleAsync();
        var marked = int.Parse(
            (await opened.Page.GetByText("struck 0, added 0.").InnerTextAsync()).Split(' ', ',')[1],
            System.Globalization.CultureInfo.InvariantCulture
        );
        Assert.InRange(marked, 9, 13);

        // One struck by key, one added by a tap where nothing is.
        await opened.Page.GetByText("By keys, without tapping").ClickAsync();
        await Button(opened, "Next mark").ClickAsync();
        await Button(opened, "Mark or strike here").ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByText($"Marked {marked - 1}, struck 1, added 0."))
            .ToBeVisibleAsync();
        await board.ClickAsync(
            new()
            {
                Position = new() { X = 4, Y = 4 },
            }
        );
        await Assertions
            .Expect(opened.Page.GetByText($"Marked {marked}, struck 1, added 1."))
            .ToBeVisibleAsync();
        await Assertions
            .Expect(opened.Page.GetByText($"At least {marked} are in this picture"))
            .ToBeVisibleAsync();

        await Button(opened, "Write it").ClickAsync();
        await Assertions.Expect(opened.Page.GetByText($"written: {marked}.")).ToBeVisibleAsync();
        await opened.GoTo("/journal");
        await Assertions
            .Expect(opened.Page.GetByText($"{marked} marked by the program on the phone").First)
            .ToBeVisibleAsync();
    }

    [Fact]
    public async Task What_is_no_picture_is_refused_by_name()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo("/look/count");
        await opened
            .Page.Locator("input[type=file][multiple]")
            .SetInputFilesAsync([File("notes.png", "only text"u8.ToArray())]);
        await Button(opened, "Count them").ClickAsync();
        await Assertions.Expect(opened.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("notes.png:");
    }

    private static ILocator Button(Opened opened, string name) =>
        opened.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static FilePayload File(string name, byte[] bytes) =>
        new()
        {
            Name = name,
            MimeType = "image/png",
            Buffer = bytes,
        };

    // Twelve slender things on dark, each moved and turned from frame to frame by a way of its own.
    private static byte[] Frame(int frame)
    {
        const int Across = 480;
        const int Down = 360;
        var colours = new byte[4 * Across * Down];
        for (var at = 0; at < Across * Down; at++)
        {
            var (x, y) = (at % Across, at / Across);
            var light =
                30 + (30 * Math.Exp(-(Math.Pow((x - 160) / 200.0, 2) + Math.Pow((y - 80) / 150.0, 2))));
            for (var dot = 0; dot < 12; dot++)
            {
                var u = x - 60 - (dot % 4 * 120) - (14 * Math.Cos((dot * 2.4) + (frame * 2.1)));
                var v = y - 60 - (dot / 4 * 120) - (14 * Math.Sin((dot * 1.7) + (frame * 1.9)));
                var (sine, cosine) = Math.SinCos((dot * 1.1) + (frame * 0.4));
                var (along, aside) = ((u * cosine) + (v * sine), (v * cosine) - (u * sine));
                light += 170 * Math.Exp(-(along * along / 50) - (aside * aside / 6));
            }

            var grain = ((x * 7919) ^ (y * 104729) ^ (frame * 1299709)) % 5;
            Array.Fill(colours, (byte)Math.Clamp(light + grain, 0, 255), 4 * at, 4);
        }

        return MarkedPicture.Png(new Picture(new GridShape(Across, Down), colours), []);
    }
}
