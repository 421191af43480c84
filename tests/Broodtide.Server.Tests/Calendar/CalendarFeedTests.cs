using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Phone.Reminding;
using Broodtide.Server.Calendar;
using Broodtide.Server.People;
using Broodtide.Server.Tests.Kit;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Logging;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Server.Tests.Calendar;

/// <summary>The calendar address, asked over the network as a calendar asks it.</summary>
public sealed class CalendarFeedTests : IAsyncLifetime
{
    private static readonly Instant Start = Instant.FromUtc(2026, 7, 20, 16, 0);
    private static readonly CalendarWish Wish = new("Europe/Berlin", "metric.hours24.point.23:00-07:00");

    private readonly TemporaryFolder _folder = new();
    private readonly FakeClock _clock = new(Start);
    private readonly MemoryJournal _journal = new(new ReplicaId(Guid.CreateVersion7()));
    private readonly HttpClient _keeper = new();
    private readonly HttpClient _program = new();
    private HouseFile _house = null!;
    private CalendarFeed _feed = null!;
    private WebApplication _app = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        var zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
        await _journal.AppendAsync([.. InventedHouse.Drafts(Start, zone)], Stop);
        _house = HouseFile.Open(_folder.File("house.db"));
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        builder.Services.AddPolicies();
        _app = builder.Build();
        _app.LetInWhoeverIsHere();
        _app.UseAuthorization();
        _feed = new CalendarFeed(_journal, _clock);
        _app.MapCalendar(_feed, new HouseCalendars(_house), _clock);
        await _app.StartAsync(Stop);
        _keeper.BaseAddress = _program.BaseAddress = new Uri(_app.Urls.First());
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _feed.Dispose();
        await _journal.DisposeAsync();
        _house.Dispose();
        _keeper.Dispose();
        _program.Dispose();
        _folder.Dispose();
    }

    private async Task<CalendarStanding> Standing() =>
        (
            await _keeper.GetFromJsonAsync(
                new Uri(CalendarLink.Path, UriKind.Relative),
                CalendarJson.Default.CalendarStanding,
                Stop
            )
        )!;

    private async Task<string> Made()
    {
        using var content = new StringContent(
            JsonSerializer.Serialize(Wish, CalendarJson.Default.CalendarWish),
            Encoding.UTF8,
            "application/json"
        );
        using var answer = await _keeper.PostAsync(
            new Uri(CalendarLink.Path, UriKind.Relative),
            content,
            Stop
        );
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync(CalendarJson.Default.CalendarStanding, Stop))!.Path!;
    }

    private Task<HttpResponseMessage> Ask(string path) =>
        _program.GetAsync(new Uri(path, UriKind.Relative), Stop);

    [Fact]
    public async Task A_program_without_cookies_reads_what_is_due_in_words_and_nothing_is_stored_on_the_way()
    {
        var path = await Made();
        using var answer = await Ask(path);
        var text = await answer.Content.ReadAsStringAsync(Stop);
        var read = Ical.Net.Calendar.Load(text)!;

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("text/calendar", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("no-store", answer.Headers.CacheControl!.ToString());
        Assert.True(read.Events.Count > 10, $"{read.Events.Count} events");
        Assert.All(read.Events, it => Assert.DoesNotMatch(@"^[a-z]+\.[a-zA-Z-]+$", it.Summary!));
        Assert.Contains(read.Events, it => it.Summary!.StartsWith("Feed ", StringComparison.Ordinal));
        Assert.DoesNotContain(read.Events, it => it.Status == "CANCELLED");
    }

    [Fact]
    public async Task A_secret_has_256_bits_and_stands_nowhere_in_the_house()
    {
        var path = await Made();
        var secret = Path.GetFileNameWithoutExtension(path);

        Assert.Equal(
            CalendarApi.SecretBits / 8,
            System.Buffers.Text.Base64Url.DecodeFromChars(secret).Length
        );
        Assert.NotEqual(path, await Made());
        _house.Dispose();
        foreach (var file in _folder.Folder.EnumerateFiles("house.db*"))
        {
            Assert.DoesNotContain(
                secret,
                await File.ReadAllTextAsync(file.FullName, Encoding.Latin1, Stop),
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public async Task What_is_renewed_or_switched_off_opens_nothing_and_says_nothing()
    {
        Assert.Null((await Standing()).Made);
        var first = await Made();
        var second = await Made();
        Assert.NotNull((await Standing()).Made);
        Assert.Null((await Standing()).Path);
        using (var old = await Ask(first))
        {
            Assert.Equal(HttpStatusCode.NotFound, old.StatusCode);
            Assert.Empty(await old.Content.ReadAsStringAsync(Stop));
        }

        using (var answer = await Ask(second))
        {
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }

        using var off = await _keeper.DeleteAsync(new Uri(CalendarLink.Path, UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.OK, off.StatusCode);
        using var gone = await Ask(second);
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        using var wrong = await Ask(CalendarLink.Path + "/" + new string('A', 43) + ".ics");
        Assert.Equal(HttpStatusCode.NotFound, wrong.StatusCode);
    }

    [Fact]
    public async Task Whoever_asks_too_often_waits()
    {
        var path = CalendarLink.Path + "/" + new string('A', 43) + ".ics";
        for (var ask = 0; ask < CalendarFeed.MostInWindow; ask++)
        {
            using var answer = await Ask(path);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }

        using var refused = await Ask(path);
        Assert.Equal(HttpStatusCode.TooManyRequests, refused.StatusCode);
        Assert.NotNull(refused.Headers.RetryAfter);
    }

    [Theory]
    [InlineData("""{"zone":"Atlantis/Harbour","manner":""}""", "application/json")]
    [InlineData("""{"zone":"Europe/Berlin"}""", "application/json")]
    [InlineData("no json", "application/json")]
    [InlineData("""{"zone":"Europe/Berlin","manner":""}""", "text/plain")]
    public async Task A_wish_that_is_not_understood_makes_no_address(string body, string mediaType)
    {
        using var content = new StringContent(body, Encoding.UTF8, mediaType);
        using var answer = await _keeper.PostAsync(
            new Uri(CalendarLink.Path, UriKind.Relative),
            content,
            Stop
        );

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Null((await Standing()).Made);
    }

    [Fact]
    public async Task Within_five_minutes_the_same_is_told_and_later_what_is_new()
    {
        var path = await Made();
        var first = await Text(path);
        _clock.AdvanceMinutes(4);
        Assert.Equal(first, await Text(path));
        _clock.AdvanceMinutes(2);
        Assert.NotEqual(first, await Text(path));
    }

    private async Task<string> Text(string path)
    {
        using var answer = await Ask(path);
        return await answer.Content.ReadAsStringAsync(Stop);
    }
}
