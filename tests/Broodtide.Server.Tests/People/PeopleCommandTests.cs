using System.Text.Json;
using Broodtide.Server.People;
using Broodtide.Server.Tests.Kit;
using Broodtide.Workbench.People;
using Microsoft.Extensions.DependencyInjection;

namespace Broodtide.Server.Tests.People;

public sealed class PeopleCommandTests
{
    [Fact]
    public async Task An_owner_who_forgot_the_passphrase_comes_in_by_a_code_made_at_the_server_while_it_runs()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;

        var (code, said, complained) = await Types(house, "people", "reset", "ada", "--json");
        Assert.Equal((0, ""), (code, complained));
        var made = JsonSerializer.Deserialize(said, PeopleJson.Default.InvitationMade)!;
        using var guest = house.Guest();
        await guest.Does(
            PeopleAddresses.Join,
            new(made.Code, null, "ten cold tanks in a row"),
            PeopleJson.Default.JoinAsked
        );

        Assert.Equal("owner", (await guest.Door()).Me?.Role);
    }

    [Fact]
    public async Task People_are_listed_asked_in_and_let_out()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        var (_, asked, _) = await Types(house, "people", "invite", "helper", "--json");
        var made = JsonSerializer.Deserialize(asked, PeopleJson.Default.InvitationMade)!;
        Assert.Contains(
            "somebody new, helper",
            (await Types(house, "people", "list")).Said,
            StringComparison.Ordinal
        );
        using var helper = house.Guest();
        await helper.Does(
            PeopleAddresses.Join,
            new(made.Code, "Berta", LivingHouse.Passphrase),
            PeopleJson.Default.JoinAsked
        );

        var (code, said, _) = await Types(house, "people", "remove", "Berta");
        Assert.Equal(0, code);
        Assert.Contains("Berta is out", said, StringComparison.Ordinal);
        Assert.Null((await helper.Door()).Me);
        var (_, listed, _) = await Types(house, "people", "list");
        Assert.Contains("Ada: owner, signed in on 1", listed, StringComparison.Ordinal);
        Assert.Contains("Berta: let out", listed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("remove", "Ada", "is the only owner")]
    [InlineData("remove", "Eve", "Nobody of the name 'Eve'")]
    [InlineData("reset", "Eve", "Nobody of the name 'Eve'")]
    [InlineData("invite", "owner", "owner")]
    public async Task What_a_rule_forbids_ends_with_two_and_says_why(string verb, string word, string why)
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;

        var (code, _, complained) = await Types(house, "people", verb, word);

        Assert.Equal(2, code);
        Assert.Contains(why, complained, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_is_asked_into_a_house_that_nobody_owns_and_none_is_made_by_asking()
    {
        await using var house = await LivingHouse.Start();
        Assert.NotNull(house.App.Services.GetRequiredService<FirstStart>().Code);
        Assert.Equal(2, (await Types(house, "people", "invite", "reader")).Code);

        using var folder = new TemporaryFolder();
        var (code, _, complained) = await StartedServer.Run(folder, "people", "list");
        Assert.Equal(2, code);
        Assert.Contains("There is no house at", complained, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.File("house.db")));
    }

    private static Task<(int Code, string Said, string Complained)> Types(
        LivingHouse house,
        params string[] words
    ) => StartedServer.Run(house.TemporaryFolder, words);
}
