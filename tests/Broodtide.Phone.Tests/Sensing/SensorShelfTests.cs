using System.Net;
using System.Text;
using System.Text.Json;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Phone.Sensing;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Phone.Tests.Sensing;

/// <summary>What the house told of sensors is kept on the phone, and what cannot be asked changes nothing.</summary>
public sealed class SensorShelfTests
{
    private static readonly SensorsSeen Two = Told(2);

    private byte[]? _kept;

    [Fact]
    public async Task What_was_told_is_kept_and_is_there_without_a_network()
    {
        await Shelf(new House(Two)).AskAsync();
        Assert.NotNull(_kept);

        var away = Shelf(new House(null));
        await away.AskAsync();

        Assert.False(away.IsFresh);
        Assert.Equal(2, away.Told!.Sensors.Count);
    }

    [Fact]
    public async Task What_an_earlier_version_told_is_read_too()
    {
        var text = JsonSerializer.Serialize(Two, SensorsJson.Default.SensorsSeen);
        Assert.DoesNotContain("\"means\"", text, StringComparison.Ordinal);
        _kept = Encoding.UTF8.GetBytes(text);

        var shelf = Shelf(new House(null));
        await shelf.OpenAsync();

        Assert.Null(shelf.Told!.Sensors[0].Means);
    }

    [Fact]
    public async Task An_answer_that_no_house_gives_leaves_what_was_told_as_it_was()
    {
        var house = new House(Two);
        var shelf = Shelf(house);
        await shelf.AskAsync();
        house.Answer = "<html>sign in to this network</html>";
        await shelf.AskAsync();

        Assert.Equal(2, shelf.Told!.Sensors.Count);
        Assert.Equal(2, JsonSerializer.Deserialize(_kept!, SensorsJson.Default.SensorsSeen)!.Sensors.Count);
    }

    [Fact]
    public async Task Without_room_it_is_shown_all_the_same()
    {
        using var http = new HttpClient(new House(Two)) { BaseAddress = new("http://house.test/") };
        var shelf = new SensorShelf(
            http,
            () => Task.FromResult<byte[]?>(null),
            _ => throw new StoreException(StoreTrouble.Full, new InvalidOperationException("no room"))
        );
        await shelf.AskAsync();

        Assert.True(shelf.IsFresh);
        Assert.Equal(2, shelf.Told!.Sensors.Count);
    }

    [Fact]
    public async Task Whoever_listens_hears_of_each_asking()
    {
        var shelf = Shelf(new House(Two));
        var heard = 0;
        shelf.Changed += () => heard++;
        await shelf.OpenAsync();
        await shelf.OpenAsync();
        Assert.Equal(1, heard);
        await shelf.AskAsync();
        Assert.Equal(2, heard);
    }

    [Fact]
    public async Task What_is_said_of_a_sensor_is_sent_and_the_house_is_asked_again()
    {
        var house = new House(Told(1));
        var shelf = Shelf(house);
        var alarm = Guid.NewGuid();

        Assert.Null(await shelf.AcknowledgeAsync(alarm));

        Assert.Equal("/api/sensors/acknowledge", house.Asked[0].Path);
        Assert.Contains(alarm.ToString(), house.Asked[0].Body, StringComparison.Ordinal);
        Assert.Equal("/api/sensors", house.Asked[1].Path);
        Assert.Single(shelf.Told!.Sensors);
    }

    [Theory]
    [InlineData(HttpStatusCode.NotFound, """{"code":"sensor-unknown"}""", "sensor-unknown")]
    [InlineData(HttpStatusCode.Forbidden, """{"code":"role-too-low"}""", "sensor-not-done")]
    [InlineData(HttpStatusCode.BadGateway, "<html>", "sensor-house-away")]
    public async Task What_the_house_refuses_is_told_by_a_code_that_has_words(
        HttpStatusCode status,
        string answer,
        string code
    )
    {
        var shelf = Shelf(new House(Two) { Status = status, Answer = answer });

        Assert.Equal(code, await shelf.PlaceAsync("shelf-1/water", null));
        Assert.True(Words.English().Has($"sensors.no.{code}"));
    }

    [Fact]
    public async Task Without_a_network_nothing_is_said_to_be_done() =>
        Assert.Equal("sensor-house-away", await Shelf(new House(null)).LimitAsync("shelf-1/water", null));

    private SensorShelf Shelf(House house) =>
        new(
            new HttpClient(house) { BaseAddress = new("http://house.test/") },
            () => Task.FromResult(_kept),
            bytes =>
            {
                _kept = bytes;
                return Task.CompletedTask;
            }
        );

    private static SensorsSeen Told(int sensors) =>
        new(
            1_780_000_000_000,
            [
                .. Enumerable
                    .Range(1, sensors)
                    .Select(at => new SensorSeen(
                        $"shelf-{at}/water",
                        null,
                        "Cel",
                        null,
                        false,
                        1_780_000_000_000,
                        24,
                        null,
                        null,
                        false,
                        [],
                        []
                    )),
            ],
            [],
            null,
            false,
            new Dictionary<string, long>()
        );

    /// <summary>A house that answers, or none.</summary>
    private sealed class House(SensorsSeen? told) : HttpMessageHandler
    {
        public List<(string Path, string Body)> Asked { get; } = [];

        public HttpStatusCode Status { get; init; } = HttpStatusCode.OK;

        public string? Answer { get; set; }

        protected override async Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        )
        {
            if (told is null)
            {
                throw new HttpRequestException("No network.");
            }

            Asked.Add(
                (
                    request.RequestUri!.AbsolutePath,
                    request.Content is { } content ? await content.ReadAsStringAsync(cancellationToken) : ""
                )
            );
            return new(Status)
            {
                Content = new StringContent(
                    Answer ?? JsonSerializer.Serialize(told, SensorsJson.Default.SensorsSeen),
                    Encoding.UTF8,
                    "application/json"
                ),
            };
        }
    }
}
