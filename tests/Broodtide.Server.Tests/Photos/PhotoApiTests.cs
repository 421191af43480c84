using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Server.People;
using Broodtide.Server.Photos;
using Broodtide.Storage.Photos;
using Broodtide.Workbench.Photos;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;

namespace Broodtide.Server.Tests.Photos;

public sealed class PhotoApiTests : IAsyncLifetime
{
    private static readonly byte[] Photo = SmallPhoto(0x12);
    private static readonly string Hash = PhotoIntake.HashOf(Photo);

    private readonly MemoryJournal _journal = new(new ReplicaId(Guid.CreateVersion7()));
    private readonly string _folder = Directory.CreateTempSubdirectory("broodtide-photos-").FullName;
    private WebApplication _house = null!;
    private HttpClient _http = null!;
    private Role? _role = Role.Keeper;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddSingleton(_ => new SharedPhotos(PhotoFolder.Open(_folder), _journal));
        _house = builder.Build();
        _house.Use(
            (context, next) =>
            {
                if (_role is { } role)
                {
                    var visitor = new Visitor(new PersonId(Guid.CreateVersion7()), "Ada", role);
                    context.User = visitor.ToPrincipal("test");
                }

                return next(context);
            }
        );
        _house.TellPhotosOfWriting();
        _house.MapPhotos();
        _house.MapPost("/api/journal/take", () => Results.NoContent());
        await _house.StartAsync(Stop);
        _http = new HttpClient { BaseAddress = new Uri(_house.Urls.First()) };
    }

    public async ValueTask DisposeAsync()
    {
        _http.Dispose();
        await _house.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task A_photo_comes_once_and_goes_out_as_it_came()
    {
        await NameAsync(Hash);
        Assert.Equal(HttpStatusCode.Created, await PutAsync(Hash, Photo));
        Assert.Equal(HttpStatusCode.NoContent, await PutAsync(Hash, Photo));
        using var answer = await _http.GetAsync($"/api/photos/{Hash}", Stop);
        Assert.Equal(Photo, await answer.Content.ReadAsByteArrayAsync(Stop));
        Assert.Equal("image/jpeg", answer.Content.Headers.ContentType?.ToString());
        Assert.True(answer.Headers.CacheControl!.Private);
        Assert.Contains("immutable", answer.Headers.CacheControl.ToString(), StringComparison.Ordinal);
        using var head = await _http.SendAsync(new(HttpMethod.Head, $"/api/photos/{Hash}"), Stop);
        Assert.Equal(HttpStatusCode.OK, head.StatusCode);
        Assert.Equal(Photo.Length, head.Content.Headers.ContentLength);
    }

    [Fact]
    public async Task What_no_entry_names_is_neither_taken_nor_given_out()
    {
        Assert.Equal(HttpStatusCode.Conflict, await PutAsync(Hash, Photo));
        PhotoFolder.Open(_folder).Put(Photo);
        Assert.Equal(HttpStatusCode.NotFound, await GetAsync(Hash));
    }

    [Fact]
    public async Task Bytes_of_another_hash_and_bytes_that_are_no_photo_are_refused()
    {
        await NameAsync(Hash);
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync(Hash, SmallPhoto(0x13)));
        var script = "<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"u8.ToArray();
        await NameAsync(PhotoIntake.HashOf(script));
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync(PhotoIntake.HashOf(script), script));
        var bomb = SmallPhoto(0x12, 60_000);
        await NameAsync(PhotoIntake.HashOf(bomb));
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync(PhotoIntake.HashOf(bomb), bomb));
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync("..%2F..%2Fjournal.db", Photo));
        Assert.Empty(PhotoFolder.Open(_folder).All());
    }

    [Fact]
    public async Task A_file_over_the_limit_is_refused_before_it_is_read()
    {
        await NameAsync(Hash);
        using var request = new HttpRequestMessage(HttpMethod.Put, $"/api/photos/{Hash}")
        {
            Content = new ByteArrayContent(new byte[PhotoLimits.LargestFileBytes + 1]),
        };
        // The body is sent only when it is asked for, which it must not be.
        request.Headers.ExpectContinue = true;
        using var answer = await _http.SendAsync(request, Stop);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
    }

    [Fact]
    public async Task Readers_look_helpers_bring_and_strangers_do_neither()
    {
        await NameAsync(Hash);
        _role = Role.Reader;
        Assert.Equal(HttpStatusCode.Forbidden, await PutAsync(Hash, Photo));
        _role = Role.Helper;
        Assert.Equal(HttpStatusCode.Created, await PutAsync(Hash, Photo));
        _role = Role.Reader;
        Assert.Equal(HttpStatusCode.OK, await GetAsync(Hash));
        _role = null;
        Assert.Equal(HttpStatusCode.Unauthorized, await GetAsync(Hash));
        Assert.Equal(HttpStatusCode.Unauthorized, await PutAsync(Hash, Photo));
    }

    [Fact]
    public async Task The_house_says_which_photos_it_lacks()
    {
        await NameAsync(Hash);
        var other = PhotoIntake.HashOf(SmallPhoto(0x13));
        await PutAsync(Hash, Photo);
        using var answer = await _http.PostAsJsonAsync("/api/photos/lacking", new[] { Hash, other }, Stop);
        Assert.Equal([other], (await answer.Content.ReadFromJsonAsync<string[]>(Stop))!);
        using var wrong = await _http.PostAsJsonAsync("/api/photos/lacking", new[] { "../x" }, Stop);
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
    }

    [Fact]
    public async Task An_erasing_entry_takes_the_file_away_and_it_does_not_come_again()
    {
        var entry = await NameAsync(Hash);
        await PutAsync(Hash, Photo);
        // As a phone does: by way of the journal's own door.
        using (await _http.PostAsync("/api/journal/take", null, Stop)) { }

        await _journal.AppendAsync([Draft(new EntryTakenBack(), new(CorrectionKind.Erases, entry))], Stop);
        using (await _http.PostAsync("/api/journal/take", null, Stop)) { }

        Assert.Equal(HttpStatusCode.NotFound, await GetAsync(Hash));
        Assert.Empty(PhotoFolder.Open(_folder).All());
        Assert.Equal(HttpStatusCode.Conflict, await PutAsync(Hash, Photo));
    }

    [Fact]
    public async Task A_damaged_file_is_not_given_out()
    {
        await NameAsync(Hash);
        await PutAsync(Hash, Photo);
        await File.WriteAllBytesAsync(PhotoFolder.Open(_folder).PlaceOf(Hash), SmallPhoto(0x55), Stop);
        Assert.Equal(HttpStatusCode.InternalServerError, await GetAsync(Hash));
    }

    private async Task<EntryId> NameAsync(string hash)
    {
        var written = await _journal.AppendAsync([Draft(new PhotoAdded(hash, "image/jpeg", 1))], Stop);
        using (await _http.PostAsync("/api/journal/take", null, Stop)) { }

        return written[0].Id;
    }

    private static Draft Draft(Fact fact, Correction? correction = null)
    {
        var now = Instant.FromUtc(2026, 3, 1, 21, 5);
        return new(
            new EntryId(Guid.CreateVersion7()),
            new Author("Ada"),
            now,
            "Europe/Berlin",
            Happened.At(now),
            fact,
            correction
        );
    }

    private async Task<HttpStatusCode> GetAsync(string hash)
    {
        using var answer = await _http.GetAsync($"/api/photos/{hash}", Stop);
        return answer.StatusCode;
    }

    private async Task<HttpStatusCode> PutAsync(string hash, byte[] bytes)
    {
        using var content = new ByteArrayContent(bytes);
        content.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        using var answer = await _http.PutAsync($"/api/photos/{hash}", content, Stop);
        return answer.StatusCode;
    }

    // A JPEG of a few bytes: one frame, one scan.
    private static byte[] SmallPhoto(byte pixels, int across = 40) =>
        [
            0xff,
            0xd8,
            .. new byte[] { 0xff, 0xc0, 0, 11, 8, 0, 30, (byte)(across >> 8), (byte)across, 1, 1, 0x11, 0 },
            .. new byte[] { 0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0 },
            pixels,
            0xff,
            0xd9,
        ];
}
