using System.Net;
using Broodtide.Server.People;
using Broodtide.Workbench.People;
using Microsoft.Extensions.DependencyInjection;

namespace Broodtide.Server.Tests.People;

public sealed class EntranceTests
{
    private static Task<(HttpStatusCode Status, string Code)> TriesToSignIn(
        Guest guest,
        string name,
        string passphrase
    ) => guest.IsRefused(PeopleAddresses.SignIn, new(name, passphrase), PeopleJson.Default.SignInAsked);

    [Fact]
    public async Task Without_an_owner_the_house_shares_nothing_and_says_why()
    {
        await using var house = await LivingHouse.Start();
        using var guest = house.Guest();

        using var answer = await guest.Post("api/journal/meet");

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Equal("owner-missing", await Guest.CodeOf(answer));
        Assert.False((await guest.Door()).HasOwner);
    }

    [Fact]
    public async Task The_printed_code_makes_one_owner_and_opens_nothing_afterwards()
    {
        await using var house = await LivingHouse.Start();
        var code = house.App.Services.GetRequiredService<FirstStart>().Code!;
        using var guest = house.Guest();
        var asked = new FirstAsked(code, "Ada", LivingHouse.Passphrase);

        Assert.Equal(
            "code-wrong",
            (
                await guest.IsRefused(
                    PeopleAddresses.First,
                    asked with
                    {
                        Code = Codes.New(),
                    },
                    PeopleJson.Default.FirstAsked
                )
            ).Code
        );
        await guest.Does(
            PeopleAddresses.First,
            asked with
            {
                Code = code.ToLowerInvariant().Replace('-', ' '),
            },
            PeopleJson.Default.FirstAsked
        );

        Assert.Equal(new PersonSeen(house.People.All()[0].Id.Value, "Ada", "owner"), (await guest.Door()).Me);
        using var shared = await guest.Get(PeopleAddresses.MySessions);
        Assert.Equal(HttpStatusCode.OK, shared.StatusCode);
        using var late = house.Guest();
        Assert.Equal(
            (HttpStatusCode.Forbidden, "code-wrong"),
            await late.IsRefused(
                PeopleAddresses.First,
                asked with
                {
                    Name = "Eve",
                },
                PeopleJson.Default.FirstAsked
            )
        );
    }

    [Theory]
    [InlineData("short", "passphrase-too-short")]
    [InlineData("123456789012345", "passphrase-common")]
    [InlineData("Password 2026!", "passphrase-common")]
    [InlineData("abcabcabcabcabc", "passphrase-common")]
    [InlineData("Ada Broodtide shrimp", "passphrase-own-name")]
    public async Task A_passphrase_that_is_tried_first_makes_no_owner(string passphrase, string reason)
    {
        await using var house = await LivingHouse.Start();
        using var guest = house.Guest();
        var code = house.App.Services.GetRequiredService<FirstStart>().Code!;

        Assert.Equal(
            (HttpStatusCode.BadRequest, reason),
            await guest.IsRefused(
                PeopleAddresses.First,
                new(code, "Ada", passphrase),
                PeopleJson.Default.FirstAsked
            )
        );
        Assert.False(house.People.HasOwner());
    }

    [Fact]
    public async Task A_wrong_passphrase_and_an_unknown_name_are_answered_alike()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var guest = house.Guest();

        var wrong = await TriesToSignIn(guest, "Ada", "nine dry hands at night");
        var unknown = await TriesToSignIn(guest, "Nobody", "nine dry hands at night");

        Assert.Equal((HttpStatusCode.Unauthorized, "sign-in-wrong"), wrong);
        Assert.Equal(wrong, unknown);
        Assert.Null((await guest.Door()).Me);
        await guest.Does(
            PeopleAddresses.SignIn,
            new(" ada ", LivingHouse.Passphrase),
            PeopleJson.Default.SignInAsked
        );
        Assert.Equal("Ada", (await guest.Door()).Me?.Name);
    }

    [Fact]
    public async Task After_ten_tries_a_name_is_closed_whether_it_is_in_the_house_or_not()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var guest = house.Guest();
        var last = new List<(HttpStatusCode, string)>();
        foreach (var name in new[] { "Ada", "Nobody" })
        {
            for (var tries = 0; tries < Tries.NameTries; tries++)
            {
                Assert.Equal("sign-in-wrong", (await TriesToSignIn(guest, name, "wrong")).Code);
            }

            last.Add(await TriesToSignIn(guest, name, LivingHouse.Passphrase));
        }

        Assert.Equal([(HttpStatusCode.TooManyRequests, "too-many-tries")], last.Distinct());
    }

    [Fact]
    public async Task One_address_has_only_so_many_tries_under_all_names()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var guest = house.Guest();
        // One was spent on making the owner.
        for (var tries = 1; tries < Tries.AddressTries; tries++)
        {
            Assert.Equal(
                "code-wrong",
                (
                    await guest.IsRefused(
                        PeopleAddresses.Invitation,
                        new(Codes.New()),
                        PeopleJson.Default.CodeAsked
                    )
                ).Code
            );
        }

        Assert.Equal(
            (HttpStatusCode.TooManyRequests, "too-many-tries"),
            await TriesToSignIn(guest, "Somebody", LivingHouse.Passphrase)
        );
        // Who is in already is not shut out.
        using var shared = await owner.Get(PeopleAddresses.MySessions);
        Assert.Equal(HttpStatusCode.OK, shared.StatusCode);
    }

    [Fact]
    public async Task A_hash_of_too_few_rounds_is_made_anew_at_the_next_sign_in()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        var ada = house.People.Named("Ada")!;
        var weak = new Passphrases(Passphrases.Rounds / 10).Hash(LivingHouse.Passphrase);
        house.People.SetPassphrase(ada.Id, weak);
        using var guest = house.Guest();

        await guest.Does(
            PeopleAddresses.SignIn,
            new("Ada", LivingHouse.Passphrase),
            PeopleJson.Default.SignInAsked
        );

        var strong = house.People.Find(ada.Id)!;
        Assert.NotEqual(weak, strong.PassphraseHash);
        Assert.Equal(Checked.Right, new Passphrases().Check(strong, LivingHouse.Passphrase));
    }

    [Fact]
    public async Task An_invitation_lets_one_person_in_with_its_role_and_an_own_passphrase()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var made = await owner.Post(
            PeopleAddresses.Invitations,
            new("helper", null),
            PeopleJson.Default.InviteAsked
        );
        var invitation = await Read(made);
        using var guest = house.Guest();
        using var seen = await guest.Post(
            PeopleAddresses.Invitation,
            new(invitation.Code),
            PeopleJson.Default.CodeAsked
        );
        Assert.Equal(HttpStatusCode.OK, seen.StatusCode);

        var joining = new JoinAsked(invitation.Code, "Berta", "forty litres of salt");
        Assert.Equal(
            "name-taken",
            (
                await guest.IsRefused(
                    PeopleAddresses.Join,
                    joining with
                    {
                        Name = "ADA",
                    },
                    PeopleJson.Default.JoinAsked
                )
            ).Code
        );
        await guest.Does(PeopleAddresses.Join, joining, PeopleJson.Default.JoinAsked);

        Assert.Equal("helper", (await guest.Door()).Me?.Role);
        using var late = house.Guest();
        Assert.Equal(
            "code-wrong",
            (
                await late.IsRefused(
                    PeopleAddresses.Join,
                    joining with
                    {
                        Name = "Carl",
                    },
                    PeopleJson.Default.JoinAsked
                )
            ).Code
        );
    }

    [Fact]
    public async Task An_invitation_ends_after_seven_days_or_when_the_owner_takes_it_back()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var first = await owner.Post(
            PeopleAddresses.Invitations,
            new("reader", null),
            PeopleJson.Default.InviteAsked
        );
        using var second = await owner.Post(
            PeopleAddresses.Invitations,
            new("reader", null),
            PeopleJson.Default.InviteAsked
        );
        var (old, back) = (await Read(first), await Read(second));
        using var taken = await owner.Post($"{PeopleAddresses.Invitations}/{back.Seen.Id}/withdraw");
        Assert.Equal(HttpStatusCode.NoContent, taken.StatusCode);
        using var guest = house.Guest();

        Assert.Equal("code-wrong", (await Joins(guest, back.Code)).Code);
        house.Clock.Advance(Invitations.Lasts);
        Assert.Equal("code-wrong", (await Joins(guest, old.Code)).Code);
    }

    [Fact]
    public async Task Nobody_becomes_an_owner_by_a_code()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;

        Assert.Equal(
            (HttpStatusCode.BadRequest, "body-wrong"),
            await owner.IsRefused(
                PeopleAddresses.Invitations,
                new("owner", null),
                PeopleJson.Default.InviteAsked
            )
        );
    }

    [Fact]
    public async Task A_browser_on_which_somebody_is_signed_in_takes_no_second_person()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;

        Assert.Equal(
            (HttpStatusCode.Conflict, "somebody-is-in"),
            await TriesToSignIn(owner, "Ada", LivingHouse.Passphrase)
        );
    }

    [Fact]
    public async Task A_demo_lets_in_whoever_is_there_and_says_so()
    {
        await using var house = await LivingHouse.Start(demo: true);
        using var guest = house.Guest();

        var door = await guest.Door();
        Assert.True(door is { AllAreIn: true, HasOwner: true, Me.Role: "owner" });
        using var shared = await guest.Get(PeopleAddresses.MySessions);
        Assert.Equal(HttpStatusCode.OK, shared.StatusCode);
    }

    private static Task<(HttpStatusCode, string Code)> Joins(Guest guest, string code) =>
        guest.IsRefused(
            PeopleAddresses.Join,
            new(code, "Dora", LivingHouse.Passphrase),
            PeopleJson.Default.JoinAsked
        );

    private static async Task<InvitationMade> Read(HttpResponseMessage answer) =>
        (
            await System.Net.Http.Json.HttpContentJsonExtensions.ReadFromJsonAsync(
                answer.Content,
                PeopleJson.Default.InvitationMade,
                TestContext.Current.CancellationToken
            )
        )!;
}
