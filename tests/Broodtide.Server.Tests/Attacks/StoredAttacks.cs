using System.Net;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Tests.Attacks;

/// <summary>Texts that wait in the house for somebody's browser, and what the house prints of all this.</summary>
public sealed class StoredAttacks(BesiegedHouse house) : IClassFixture<BesiegedHouse>
{
    private const string Script = "<script>alert(1)</script>";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // What a browser does with a text is settled by the kind and by the headers of the answer.
    [Theory]
    [InlineData("")]
    [InlineData("api/people/door")]
    [InlineData("api/people")]
    [InlineData("api/people/me/sessions")]
    [InlineData("api/sharing")]
    [InlineData("api/house")]
    [InlineData("api/calendar")]
    [InlineData("nowhere/%3Cscript%3Ealert(1)%3C/script%3E")]
    public async Task Every_answer_forbids_what_runs_and_frames_and_guesses(string path)
    {
        using var answer = await house.Owner.Get(path);
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe-inline", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.False(answer.Headers.Contains("Server"));
        Assert.DoesNotContain(Script, await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        if (path.StartsWith("api/", StringComparison.Ordinal))
        {
            Assert.Equal("application/json", answer.Content.Headers.ContentType?.MediaType);
        }
    }

    [Fact]
    public async Task A_name_that_is_a_script_stays_a_text_that_no_browser_runs()
    {
        using var invited = await house.Owner.Post(
            PeopleAddresses.Invitations,
            new InviteAsked("reader", null),
            PeopleJson.Default.InviteAsked
        );
        Assert.True(invited.IsSuccessStatusCode, await invited.Content.ReadAsStringAsync(Stop));
        var made = System.Text.Json.JsonSerializer.Deserialize(
            await invited.Content.ReadAsStringAsync(Stop),
            PeopleJson.Default.InvitationMade
        )!;
        using var guest = house.Guest();
        using var joined = await guest.Post(
            PeopleAddresses.Join,
            new JoinAsked(made.Code, Script, "nine wet hands at dawn"),
            PeopleJson.Default.JoinAsked
        );
        using var seen = await house.Owner.Get(PeopleAddresses.Root);
        var text = await seen.Content.ReadAsStringAsync(Stop);
        // Refused as a name, or kept as a text: in JSON the sign that opens a tag is written as its number.
        Assert.DoesNotContain("<script", text, StringComparison.OrdinalIgnoreCase);
        Assert.Equal("application/json", seen.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task The_house_fetches_no_address_that_somebody_gives_it()
    {
        using var listener = new System.Net.Sockets.TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var trap = $"http://{listener.LocalEndpoint}/trap";
        foreach (
            var path in new[]
            {
                "api/journal/give",
                "api/sharing/let-in",
                PicturesAnswer.Path,
                "api/calendar",
            }
        )
        {
            using var content = new StringContent(
                $$"""{"url":"{{trap}}","path":"{{trap}}","zone":"{{trap}}","manner":"{{trap}}","entries":["{{trap}}"]}""",
                null,
                "application/json"
            );
            using var answer = await house.Owner.Send(HttpMethod.Post, path, content, true);
            Assert.InRange((int)answer.StatusCode, 200, 499);
        }

        using var header = await house.Guest().Get($"api/house?from={trap}");
        Assert.False(listener.Pending());
    }

    [Fact]
    public async Task What_the_house_prints_names_nobody_and_holds_no_secret()
    {
        using var guest = house.Guest();
        await guest.IsRefused(
            PeopleAddresses.SignIn,
            new SignInAsked("Ottilie", "a passphrase of Ottilie"),
            PeopleJson.Default.SignInAsked
        );
        using var wrong = new StringContent("{\"note\":\"what Ottilie wrote\"", null, "application/json");
        using (await house.Owner.Send(HttpMethod.Post, "api/journal/give", wrong, true)) { }
        using (await guest.Get("api/calendar/a-secret-of-a-calendar.ics")) { }
        await house.Raw("\0\u0001 nonsense of Ottilie\r\n\r\n");
        foreach (var private_ in new[] { "Ottilie", "Ada", "a-secret-of-a-calendar", "nine wet hands" })
        {
            Assert.DoesNotContain(private_, house.Printed, StringComparison.Ordinal);
        }
    }
}
