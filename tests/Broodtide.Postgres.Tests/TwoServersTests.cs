using System.Text;
using System.Text.RegularExpressions;
using Broodtide.Domain.Journal;
using Broodtide.Postgres.Tests.Kit;
using Broodtide.Server.Tests.People;
using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Tests;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Postgres.Tests;

/// <summary>Two servers on one database behind a proxy are one house.</summary>
public sealed partial class TwoServersTests(Cluster cluster) : IAsyncLifetime
{
    private const string Passphrase = "nine wet hands at night";
    private readonly string _database = cluster.NewHouse();
    private StoreServer _first = null!;
    private StoreServer _second = null!;
    private RoundRobin _proxy = null!;
    private PersonId _owner;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _first = new StoreServer(_database);
        _second = new StoreServer(_database);
        await _first.StartAsync();
        // The code of the first owner is good at the server that printed it.
        using (var guest = new Guest(_first.Address))
        {
            await guest.Does(
                PeopleAddresses.First,
                new FirstAsked(Code().Match(_first.Said).Groups["code"].Value, "Ada", Passphrase),
                PeopleJson.Default.FirstAsked
            );
        }

        await _second.StartAsync();
        _proxy = new RoundRobin(_first.Port, _second.Port);
        using var store = PostgresStore.Open(_database);
        _owner = new HousePeople(new PostgresHouse(store)).All().Single().Id;
    }

    public async ValueTask DisposeAsync()
    {
        await _proxy.DisposeAsync();
        await _first.DisposeAsync();
        await _second.DisposeAsync();
    }

    [Fact]
    public async Task Who_signed_in_at_one_server_is_known_at_the_other_and_who_was_let_out_at_neither()
    {
        using var ada = await SignedInAsync(_first.Address);
        using var phone = new RealPhone(ada);
        await phone.OpenAsync(_owner);
        // Signing in, the token of the page and each request: none of them asks for the same server.
        for (var request = 0; request < 6; request++)
        {
            Assert.Equal(Meeting.Agreed, (await phone.MeetAsync()).Meeting);
        }

        Assert.True(_proxy.Served(_first.Port) > 3 && _proxy.Served(_second.Port) > 3);
        using (var store = PostgresStore.Open(_database))
        {
            new HouseSessions(new PostgresHouse(store)).RevokeAll(
                _owner,
                null,
                NodaTime.SystemClock.Instance.GetCurrentInstant()
            );
        }

        Assert.Equal(Meeting.Refused, (await phone.MeetAsync()).Meeting);
        Assert.Equal(Meeting.Refused, (await phone.MeetAsync()).Meeting);
    }

    [Fact]
    public async Task What_one_server_took_the_other_gives_at_the_next_meeting()
    {
        using var east = await PhoneAsync(_first.Address);
        using var west = await PhoneAsync(_second.Address);
        for (var round = 0; round < 5; round++)
        {
            var (one, other) = round % 2 == 0 ? (east, west) : (west, east);
            var written = await one.Journal.AppendAsync([Samples.Note($"{round}")], Stop);
            Assert.Equal(Meeting.Agreed, (await one.MeetAsync()).Meeting);
            var met = await other.MeetAsync();
            Assert.Equal(written.Select(entry => entry.Digest), met.Came.Select(entry => entry.Digest));
        }
    }

    [Fact]
    public async Task What_one_server_holds_back_waits_at_the_other_too_and_is_decided_there()
    {
        using var east = await PhoneAsync(_first.Address);
        await east.Journal.AppendAsync([Samples.Note("before")], Stop);
        Assert.Equal(Meeting.Agreed, (await east.MeetAsync()).Meeting);
        using var owner = await SignedInAsync(_second.Address, direct: true);
        await PostAsync(owner, "/api/sharing/revoke", $$"""{"stores":["{{east.Journal.Replica.Value}}"]}""");

        var late = (await east.Journal.AppendAsync([Samples.Note("after")], Stop))[0];
        await east.MeetAsync();
        using var seen = await owner.Get("/api/sharing");
        Assert.Contains(
            late.Digest.ToString(),
            await seen.Content.ReadAsStringAsync(Stop),
            StringComparison.Ordinal
        );
        await PostAsync(owner, "/api/sharing/let-in", $$"""{"entries":["{{late.Digest}}"]}""");

        using var other = await PhoneAsync(_first.Address);
        var met = await other.MeetAsync();
        Assert.Contains(late.Digest, met.Came.Select(entry => entry.Digest));
        Assert.Equal(0, met.Welcome!.HeldBack);
    }

    [Fact]
    public async Task One_server_is_killed_under_load_again_and_again_and_nothing_confirmed_is_lost()
    {
        const int phones = 4;
        const int rounds = 12;
        var all = new List<RealPhone>();
        for (var number = 0; number < phones; number++)
        {
            all.Add(await PhoneAsync(_proxy.Address));
        }

        var isOver = false;
        var answered = 0;
        var failed = 0;
        var killing = Task.Run(
            async () =>
            {
                var kills = 0;
                while (!Volatile.Read(ref isOver) || kills < 2)
                {
                    var until = Volatile.Read(ref answered) + 6;
                    await UntilAsync(() => Volatile.Read(ref answered) >= until || Volatile.Read(ref isOver));
                    var server = kills % 2 == 0 ? _second : _first;
                    await server.KillAsync();
                    kills++;
                    // The other one goes on alone.
                    until = Volatile.Read(ref answered) + 3;
                    await UntilAsync(() => Volatile.Read(ref answered) >= until || Volatile.Read(ref isOver));
                    await server.StartAsync();
                }

                return kills;
            },
            Stop
        );
        await Task.WhenAll(
            all.Select(phone =>
                Task.Run(
                    async () =>
                    {
                        for (var round = 0; round < rounds; round++)
                        {
                            await phone.Journal.AppendAsync(
                                [Samples.Note($"{round}"), Samples.Note("and"), Samples.Note("so on")],
                                Stop
                            );
                            while ((await phone.MeetAsync()).Meeting is not Meeting.Agreed)
                            {
                                Interlocked.Increment(ref failed);
                            }

                            Interlocked.Increment(ref answered);
                        }
                    },
                    Stop
                )
            )
        );
        Volatile.Write(ref isOver, true);
        var killed = await killing;
        Assert.True(killed >= 2, $"{killed} kills");

        // Everything that a phone was told to be safe is in the database, whole and chained; and both servers say so.
        using var store = PostgresStore.Open(_database);
        await using var journal = await PostgresJournal.OpenAsync(store, "look", cancellation: Stop);
        var kept = await journal.ReadAllAsync(Stop);
        Assert.Empty(Account.Of(kept).Conflicts());
        var confirmed = all.SelectMany(phone => phone.Rows.Rows)
            .Where(row => row.Acknowledged)
            .Select(row => row.Digest)
            .ToHashSet();
        Assert.Equal(phones * rounds * 3, confirmed.Count);
        Assert.Equal(confirmed.Order(), kept.Select(entry => entry.Digest).Order());
        foreach (var address in (Uri[])[_first.Address, _second.Address])
        {
            using var fresh = await PhoneAsync(address);
            Assert.Equal(confirmed.Count, (await fresh.MeetAsync()).Came.Count);
        }

        all.ForEach(phone => phone.Dispose());
    }

    private static async Task PostAsync(Guest guest, string path, string json)
    {
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var answer = await guest.Send(HttpMethod.Post, path, content, withToken: true);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(Stop));
    }

    private static async Task UntilAsync(Func<bool> isSo)
    {
        while (!isSo())
        {
            await Task.Delay(5, Stop);
        }
    }

    private async Task<RealPhone> PhoneAsync(Uri address)
    {
        var phone = new RealPhone(await SignedInAsync(address, direct: true));
        await phone.OpenAsync(_owner);
        return phone;
    }

    // Signs in at one server; goes on through the proxy unless told otherwise.
    private async Task<Guest> SignedInAsync(Uri at, bool direct = false)
    {
        var guest = new Guest(direct ? at : _proxy.Address);
        guest.Headers.ConnectionClose = true;
        while (true)
        {
            try
            {
                await guest.Does(
                    PeopleAddresses.SignIn,
                    new SignInAsked("Ada", Passphrase),
                    PeopleJson.Default.SignInAsked
                );
                return guest;
            }
            catch (HttpRequestException) when (at == _proxy.Address)
            {
                // Just killed.
            }
        }
    }

    [GeneratedRegex("#(?<code>[A-Z0-9-]+)", RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture)]
    private static partial Regex Code();
}
