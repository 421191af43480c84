using System.CommandLine;
using Broodtide.Domain;
using Broodtide.Server.Addresses;
using Broodtide.Server.Tests.Kit;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.Tests.Addresses;

public sealed class AddressCommandTests
{
    private static readonly Instant At = Instant.FromUtc(2026, 11, 25, 12, 0);
    private static readonly StoreReport Empty = new("Ana's phone", 0, At);
    private static readonly StoreReport Waiting = new("Ben's phone", 3, At);
    private static readonly StoreReport Silent = new("Old phone", null, null);

    [Fact]
    public async Task A_house_that_was_never_opened_has_nothing_to_move()
    {
        using var folder = new TemporaryFolder();

        var (code, said) = await Run(folder, [], "move", "shelf.local");

        Assert.Equal(2, code);
        Assert.Contains("never opened", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task When_nothing_waits_the_house_moves_and_remembers_where_it_was()
    {
        using var folder = new TemporaryFolder();
        Keep(folder, "https://shelf.local:5443");

        var (code, said) = await Run(folder, [Empty], "move", "broodtide.home.arpa");

        Assert.Equal(0, code);
        Assert.Contains(
            "Ana's phone: 0 waiting, said at 2026-11-25T12:00:00Z",
            said,
            StringComparison.Ordinal
        );
        var (address, former) = Kept(folder);
        Assert.Equal("https://broodtide.home.arpa:5443", address);
        Assert.Equal(["https://shelf.local:5443"], former);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_phone_that_may_still_hold_entries_keeps_the_house_where_it_is(bool hasSpoken)
    {
        using var folder = new TemporaryFolder();
        Keep(folder, "https://shelf.local:5443");
        StoreReport[] phones = [Empty, hasSpoken ? Waiting : Silent];

        var (code, said) = await Run(folder, phones, "move", "broodtide.home.arpa");

        Assert.Equal(2, code);
        Assert.Contains(
            hasSpoken ? "Ben's phone: 3 waiting" : "Old phone: never said",
            said,
            StringComparison.Ordinal
        );
        Assert.Contains("--force", said, StringComparison.Ordinal);
        Assert.Equal("https://shelf.local:5443", Kept(folder).Address);

        (code, said) = await Run(folder, phones, "move", "broodtide.home.arpa", "--force");
        Assert.Equal(0, code);
        Assert.Contains("Ana's phone: 0 waiting", said, StringComparison.Ordinal);
        Assert.Equal("https://broodtide.home.arpa:5443", Kept(folder).Address);
    }

    [Fact]
    public async Task Moving_to_where_it_is_or_to_no_name_is_refused()
    {
        using var folder = new TemporaryFolder();
        Keep(folder, "https://shelf.local:5443");

        Assert.Equal(2, (await Run(folder, [], "move", "shelf.local")).Code);
        Assert.Equal(2, (await Run(folder, [], "move", "localhost")).Code);
        Assert.Equal("https://shelf.local:5443", Kept(folder).Address);
    }

    [Fact]
    public async Task An_address_the_house_came_back_to_is_none_it_left()
    {
        using var folder = new TemporaryFolder();
        Keep(folder, "https://shelf.local:5443");
        await Run(folder, [], "move", "broodtide.home.arpa");
        await Run(folder, [], "move", "shelf.local");

        Assert.Equal(("https://shelf.local:5443", 1), (Kept(folder).Address, Kept(folder).Former.Count));
        var (_, said) = await Run(folder, [], "show", "--json");
        Assert.Contains("\"former\":[\"https://broodtide.home.arpa:5443\"]", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Stores_are_told_by_person_and_last_figures_and_one_that_never_spoke_is_unknown()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        using var house = HouseFile.Open(folder.File("house.db"));
        var ana = new HousePeople(house).All()[0].Id;
        var sharing = new HouseSharing(house);
        var spoken = new ReplicaId(new Guid("019ab5d0-5c00-7000-8000-00000000aaaa"));
        var silent = new ReplicaId(new Guid("019ab5d0-5c00-7000-8000-00000000bbbb"));
        sharing.Bind([spoken, silent], ana);
        sharing.Report([new Reported(spoken, ana, 2, At, 0)]);

        var reports = StoreReports.Of(house);

        Assert.Equal(
            [
                new StoreReport("Ana, store 0000aaaa", 2, At),
                new StoreReport("Ana, store 0000bbbb", null, null),
            ],
            reports
        );
        Assert.All(reports, report => Assert.True(report.MayHold));
    }

    private static void Keep(TemporaryFolder folder, string origin)
    {
        using var house = HouseFile.Open(folder.File("house.db"));
        Assert.True(new HouseAddresses(house).KeepFirst(origin, At));
        Assert.False(new HouseAddresses(house).KeepFirst("https://else.local", At));
    }

    private static (string? Address, IReadOnlyList<string> Former) Kept(TemporaryFolder folder)
    {
        using var house = HouseFile.Open(folder.File("house.db"));
        var addresses = new HouseAddresses(house);
        return (addresses.Current(), addresses.Former());
    }

    private static async Task<(int Code, string Said)> Run(
        TemporaryFolder folder,
        IReadOnlyList<StoreReport> phones,
        params string[] words
    )
    {
        var data = new Option<DirectoryInfo>("--data") { Recursive = true };
        var root = new RootCommand { data, AddressCommands.For(data, new Stores.StoreChoice(), _ => phones) };
        var (code, said, complained) = await Typed.Run(
            root,
            ["address", .. words, "--data", folder.Folder.FullName]
        );
        return (code, said + complained);
    }
}
