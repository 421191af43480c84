using System.Net;
using Broodtide.Phone.Keeping;

namespace Broodtide.Phone.Tests.Keeping;

public sealed class HouseAddressTests
{
    private const string Old = "https://shelf.local:5443";
    private const string New = "https://broodtide.home.arpa:5443";

    private readonly Dictionary<string, string?> _kept = [];

    [Theory]
    [InlineData(New, "{\"address\":null,\"former\":[]}", "Home")]
    [InlineData(New, "{\"address\":\"https://broodtide.home.arpa:5443\",\"former\":[]}", "Home")]
    [InlineData(
        New,
        "{\"address\":\"https://broodtide.home.arpa:5443\",\"former\":[\"https://shelf.local:5443\"]}",
        "MovedHere"
    )]
    [InlineData(
        Old,
        "{\"address\":\"https://broodtide.home.arpa:5443\",\"former\":[\"https://shelf.local:5443\"]}",
        "MovedAway"
    )]
    [InlineData(
        "http://127.0.0.1:5087",
        "{\"address\":\"https://broodtide.home.arpa:5443\",\"former\":[]}",
        "Other"
    )]
    [InlineData(New, "<!doctype html>", "Home")]
    [InlineData(New, "null", "Home")]
    public async Task What_the_server_tells_decides_where_the_app_stands(
        string here,
        string told,
        string standing
    )
    {
        var house = House(here, told);

        Assert.Equal(AddressStanding.Home, house.Standing);
        await house.AskAsync();

        Assert.Equal(standing, house.Standing.ToString());
    }

    [Fact]
    public async Task Without_a_network_what_was_told_before_holds()
    {
        await House(Old, Moved).AskAsync();

        var later = House(Old, null);
        await later.AskAsync();

        Assert.Equal(AddressStanding.MovedAway, later.Standing);
        Assert.Equal(New, later.Told?.Address);
    }

    [Fact]
    public async Task Once_the_keeper_says_that_nothing_is_left_there_the_notice_stays_away_until_the_next_move()
    {
        var house = House(New, Moved);
        await house.AskAsync();
        Assert.Equal(Old, house.Before);

        house.NothingIsLeftBefore();

        Assert.Equal(AddressStanding.Home, house.Standing);
        Assert.Equal(AddressStanding.Home, House(New, Moved).Standing);
        var again = House(
            New,
            "{\"address\":\"https://broodtide.home.arpa:5443\",\"former\":[\"https://third.local\",\"https://shelf.local:5443\"]}"
        );
        await again.AskAsync();
        Assert.Equal(AddressStanding.MovedHere, again.Standing);
    }

    private const string Moved =
        "{\"address\":\"https://broodtide.home.arpa:5443\",\"former\":[\"https://shelf.local:5443\"]}";

    private HouseAddress House(string here, string? told) =>
        new(
            new HttpClient(new Server(told)) { BaseAddress = new Uri(here + "/") },
            name => _kept.GetValueOrDefault(name),
            (name, value) =>
            {
                _kept[name] = value;
                return true;
            }
        );

    private sealed class Server(string? told) : HttpMessageHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        )
        {
            Assert.Equal("/api/house", request.RequestUri?.AbsolutePath);
            return told is null
                ? throw new HttpRequestException("away")
                : Task.FromResult(
                    new HttpResponseMessage(HttpStatusCode.OK) { Content = new StringContent(told) }
                );
        }
    }
}
