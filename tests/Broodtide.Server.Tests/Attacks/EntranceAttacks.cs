using System.Net;
using Broodtide.Server.Tests.People;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Tests.Attacks;

/// <summary>Attempts to come in, and to do something in another's name.</summary>
public sealed class EntranceAttacks : IAsyncLifetime
{
    // Tries are counted by address, so these have a house of their own.
    private readonly BesiegedHouse _house = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => _house.InitializeAsync();

    public ValueTask DisposeAsync() => _house.DisposeAsync();

    [Fact]
    public async Task Guessing_comes_to_an_end_and_who_is_in_stays_in()
    {
        using var attacker = _house.Guest();
        var answers = new List<HttpStatusCode>();
        for (var i = 0; i < 40; i++)
        {
            var (status, _) = await attacker.IsRefused(
                PeopleAddresses.SignIn,
                new SignInAsked($"name {i % 4}", $"nine dry hands no {i}"),
                PeopleJson.Default.SignInAsked
            );
            answers.Add(status);
        }

        Assert.All(answers.Take(20), status => Assert.Equal(HttpStatusCode.Unauthorized, status));
        Assert.All(answers.Skip(31), status => Assert.Equal(HttpStatusCode.TooManyRequests, status));
        using var owner = await _house.Owner.Get(PeopleAddresses.MySessions);
        Assert.Equal(HttpStatusCode.OK, owner.StatusCode);
    }

    // Session fixation: the attacker plants a session in the victim's browser and waits for the sign-in.
    [Fact]
    public async Task A_session_that_somebody_planted_is_never_the_one_that_is_signed_in()
    {
        const string Planted = "planted-by-somebody-else";
        using var http = new HttpClient(new HttpClientHandler { UseCookies = false });
        http.BaseAddress = _house.Address;

        using var token = await Ask(http, HttpMethod.Get, PeopleAddresses.Token, Planted, null, null);
        var words = await token.Content.ReadAsStringAsync(Stop);
        var word = words.Split('"')[3];
        var antiforgery = token
            .Headers.GetValues("Set-Cookie")
            .First(cookie => !cookie.StartsWith("broodtide-session", StringComparison.Ordinal))
            .Split(';')[0];
        using var signedIn = await Ask(
            http,
            HttpMethod.Post,
            PeopleAddresses.SignIn,
            $"{Planted}; {antiforgery}",
            word,
            $$"""{"name":"Ada","passphrase":"{{LivingHouse.Passphrase}}"}"""
        );
        Assert.Equal(HttpStatusCode.OK, signedIn.StatusCode);
        var fresh = signedIn
            .Headers.GetValues("Set-Cookie")
            .Single(cookie => cookie.StartsWith("broodtide-session=", StringComparison.Ordinal));
        Assert.DoesNotContain(Planted, fresh, StringComparison.Ordinal);
        using var attacker = await Ask(http, HttpMethod.Get, PeopleAddresses.MySessions, Planted, null, null);
        Assert.Equal(HttpStatusCode.Unauthorized, attacker.StatusCode);
    }

    [Theory]
    [InlineData("text/plain", null)]
    [InlineData("application/x-www-form-urlencoded", null)]
    [InlineData("multipart/form-data; boundary=x", null)]
    [InlineData("application/json", null)]
    [InlineData("application/json", "CfDJ8invented")]
    public async Task A_page_elsewhere_can_change_nothing_in_the_name_of_who_opens_it(
        string type,
        string? word
    )
    {
        foreach (
            var path in new[]
            {
                "api/journal/give",
                "api/sharing/refill",
                PeopleAddresses.Invitations,
                PeopleAddresses.SignOut,
                "api/calendar",
            }
        )
        {
            using var content = new StringContent("""{"role":"keeper"}""");
            content.Headers.Remove("Content-Type");
            content.Headers.TryAddWithoutValidation("Content-Type", type);
            if (word is not null)
            {
                content.Headers.TryAddWithoutValidation(PeopleAddresses.TokenHeader, word);
            }

            using var answer = await _house.Owner.Send(HttpMethod.Post, path, content, withToken: false);
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            Assert.Equal("token-missing", await Guest.CodeOf(answer));
            Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
        }
    }

    [Fact]
    public async Task Asking_before_the_real_question_tells_a_page_elsewhere_that_nothing_is_allowed()
    {
        var answer = await _house.Raw(
            $"OPTIONS /api/journal/give HTTP/1.1\r\nHost: {_house.Address.Authority}\r\nOrigin: http://elsewhere.invalid\r\n"
                + "Access-Control-Request-Method: POST\r\nAccess-Control-Request-Headers: broodtide-token\r\n"
                + "Connection: close\r\n\r\n"
        );
        Assert.NotEqual(200, BesiegedHouse.StatusOf(answer));
        Assert.DoesNotContain("Access-Control-Allow", answer, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("elsewhere.invalid")]
    [InlineData("127.0.0.1.elsewhere.invalid")]
    [InlineData("localhost@elsewhere.invalid")]
    public async Task A_name_that_was_pointed_at_this_machine_is_turned_away(string host)
    {
        var answer = await _house.Raw(
            $"GET /api/people/door HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
        );
        Assert.Equal(400, BesiegedHouse.StatusOf(answer));
        Assert.DoesNotContain("hasOwner", answer, StringComparison.Ordinal);
    }

    private static async Task<HttpResponseMessage> Ask(
        HttpClient http,
        HttpMethod method,
        string path,
        string session,
        string? word,
        string? body
    )
    {
        using var request = new HttpRequestMessage(method, path);
        request.Headers.Add("Cookie", $"broodtide-session={session}");
        if (word is not null)
        {
            request.Headers.Add(PeopleAddresses.TokenHeader, word);
        }

        if (body is not null)
        {
            request.Content = new StringContent(body, null, "application/json");
        }

        return await http.SendAsync(request, Stop);
    }
}
