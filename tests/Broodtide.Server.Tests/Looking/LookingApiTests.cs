using System.Buffers.Binary;
using System.Net;
using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Server.Looking;
using Broodtide.Units;
using Broodtide.Workbench.Looking;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;

namespace Broodtide.Server.Tests.Looking;

public sealed class LookingApiTests : IAsyncLifetime
{
    private WebApplication _house = null!;
    private HttpClient _http = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        _house = builder.Build();
        _house.MapLooking();
        await _house.StartAsync(Stop);
        _http = new HttpClient { BaseAddress = new Uri(_house.Urls.First()) };
    }

    public async ValueTask DisposeAsync()
    {
        _http.Dispose();
        await _house.DisposeAsync();
    }

    [Fact]
    public async Task A_photo_is_counted_as_it_is_counted_elsewhere()
    {
        var picture = Dots();
        var here = PicturesCounted.Of([picture.ToGrey()], [picture.Shape]).Value;
        var there = (await AskAsync(Framed(MarkedPicture.Png(picture, []))))!.Value;
        Assert.Equal(here.Number, there.Number);
        Assert.Equal(here.Marks, there.Marks);
        Assert.Equal(here.Remarks.Select(it => it.Code), there.Remarks.Select(it => it.Code));
        Assert.True(there.Marks.Count > 5);
    }

    [Fact]
    public async Task What_cannot_be_counted_is_said_with_its_reason()
    {
        var png = MarkedPicture.Png(Dots(), []);
        Assert.Equal("pictures-two", (await AskAsync([.. Framed(png), .. Framed(png)]))!.Reason!.Code);
        Assert.Equal("pictures-none", (await AskAsync([]))!.Reason!.Code);
        Assert.StartsWith("photo-", (await AskAsync(Framed("no picture"u8.ToArray())))!.Reason!.Code);
        Assert.Equal("photo-cut-off", (await AskAsync(Framed(png[..^40])))!.Reason!.Code);
    }

    [Fact]
    public async Task Eleven_frames_are_too_many()
    {
        var png = Framed(MarkedPicture.Png(Dots(), []));
        var reason = (await AskAsync([.. Enumerable.Repeat(png, 11).SelectMany(it => it)]))!.Reason!;
        Assert.Equal(("pictures-too-many", 10.0), (reason.Code, reason["most"]));
    }

    [Fact]
    public async Task A_body_that_breaks_off_or_claims_too_much_is_turned_away()
    {
        Assert.Equal(HttpStatusCode.BadRequest, await StatusAsync([0, 0, 0, 9, 1, 2]));
        Assert.Equal(HttpStatusCode.BadRequest, await StatusAsync([0, 0]));
        Assert.Equal("photo-file-too-large", (await AskAsync([0x7f, 0, 0, 0, 1]))!.Reason!.Code);
        using var request = new HttpRequestMessage(HttpMethod.Post, "/" + PicturesAnswer.Path)
        {
            Content = new ByteArrayContent(new byte[PicturesAnswer.MostBytes + 1]),
        };
        request.Headers.ExpectContinue = true;
        using var answer = await _http.SendAsync(request, Stop);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
    }

    [Fact]
    public void An_answer_of_somebody_else_is_none()
    {
        Assert.Null(PicturesAnswer.Read("nothing"u8));
        Assert.Null(
            PicturesAnswer.Read(
                """{"number":[3,2,1],"shareHidden":0,"frames":[{"isUsed":true,"marks":[]}],"remarks":[]}"""u8
            )
        );
        Assert.Null(PicturesAnswer.Read("""{"number":[1,2,3],"shareHidden":0,"frames":[],"remarks":[]}"""u8));
    }

    private static Picture Dots()
    {
        var colours = new byte[4 * 160 * 120];
        for (var at = 0; at < 160 * 120; at++)
        {
            var (x, y) = (at % 160 % 32 - 16, at / 160 % 30 - 15);
            var value = (byte)(20 + (at * 7919 % 5) + (200 * Math.Exp(-((x * x) + (y * y)) / 9.0)));
            (colours[4 * at], colours[(4 * at) + 1], colours[(4 * at) + 2]) = (value, value, value);
            colours[(4 * at) + 3] = 255;
        }

        return new(new GridShape(160, 120), colours);
    }

    private static byte[] Framed(byte[] file)
    {
        var head = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(head, file.Length);
        return [.. head, .. file];
    }

    private async Task<Parsed<PicturesCounted>?> AskAsync(byte[] body)
    {
        using var answer = await PostAsync(body);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return PicturesAnswer.Read(await answer.Content.ReadAsByteArrayAsync(Stop));
    }

    private async Task<HttpStatusCode> StatusAsync(byte[] body)
    {
        using var answer = await PostAsync(body);
        return answer.StatusCode;
    }

    private async Task<HttpResponseMessage> PostAsync(byte[] body)
    {
        using var content = new ByteArrayContent(body);
        return await _http.PostAsync("/" + PicturesAnswer.Path, content, Stop);
    }
}
