using System.Net;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.Tests.People;

public sealed class SessionTests
{
    private static async Task<HttpStatusCode> Asks(Guest guest)
    {
        using var answer = await guest.Get(PeopleAddresses.MySessions);
        return answer.StatusCode;
    }

    [Fact]
    public async Task A_session_that_the_owner_ends_is_out_at_once()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var helper = await house.Somebody(Role.Helper);
        Assert.Equal(HttpStatusCode.OK, await Asks(helper));
        var seen = await owner.Reads(PeopleAddresses.Root, PeopleJson.Default.HouseSeen);
        var session = seen.People.Single(person => person.Name == "Helper").Sessions.Single();

        using var ended = await owner.Post($"{PeopleAddresses.Sessions}/{session.Id}/end");

        Assert.Equal(HttpStatusCode.NoContent, ended.StatusCode);
        using var answer = await helper.Get(PeopleAddresses.MySessions);
        Assert.Equal("sign-in-needed", await Guest.CodeOf(answer));
    }

    [Fact]
    public async Task A_role_that_the_owner_changes_holds_at_the_next_request_and_a_person_let_out_is_out()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var helper = await house.Somebody(Role.Helper);
        var id = house.People.Named("Helper")!.Id;

        await owner.Does($"{PeopleAddresses.Root}/{id}/role", new("reader"), PeopleJson.Default.RoleAsked);
        Assert.Equal("reader", (await helper.Door()).Me?.Role);
        using var removed = await owner.Post($"{PeopleAddresses.Root}/{id}/remove");
        Assert.Equal(HttpStatusCode.NoContent, removed.StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, await Asks(helper));
        Assert.Equal("Helper", house.People.Find(id)?.Name);
    }

    [Fact]
    public async Task How_a_person_likes_to_be_shown_things_is_told_to_that_person_alone_and_the_last_word_holds()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var reader = await house.Somebody(Role.Reader);
        Assert.Null((await reader.Door()).Ways);
        foreach (
            var ways in new[] { new WaysSeen("de", "comma", "us", "hours12"), new WaysSeen(Decimal: "point") }
        )
        {
            await reader.Does(PeopleAddresses.MyWays, ways, PeopleJson.Default.WaysSeen);
            Assert.Equal(ways, (await reader.Door()).Ways);
        }

        Assert.Null((await owner.Door()).Ways);
        foreach (var wrong in new[] { "", "Comma!", new string('a', 21) })
        {
            Assert.Equal(
                (HttpStatusCode.BadRequest, "body-wrong"),
                await reader.IsRefused(
                    PeopleAddresses.MyWays,
                    new(Decimal: wrong),
                    PeopleJson.Default.WaysSeen
                )
            );
        }

        Assert.Equal(new WaysSeen(Decimal: "point"), (await reader.Door()).Ways);
    }

    [Fact]
    public async Task The_only_owner_cannot_go()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        var id = house.People.Named("Ada")!.Id;

        using var removed = await owner.Post($"{PeopleAddresses.Root}/{id}/remove");
        Assert.Equal(
            (HttpStatusCode.Conflict, "last-owner"),
            (removed.StatusCode, await Guest.CodeOf(removed))
        );
        Assert.Equal(
            "last-owner",
            (
                await owner.IsRefused(
                    $"{PeopleAddresses.Root}/{id}/role",
                    new("keeper"),
                    PeopleJson.Default.RoleAsked
                )
            ).Code
        );
    }

    [Fact]
    public async Task Another_passphrase_signs_out_the_other_devices_and_needs_the_old_one()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var other = house.Guest();
        var signIn = new SignInAsked("Ada", LivingHouse.Passphrase);
        await other.Does(PeopleAddresses.SignIn, signIn, PeopleJson.Default.SignInAsked);

        Assert.Equal(
            "passphrase-wrong",
            (
                await owner.IsRefused(
                    PeopleAddresses.MyPassphrase,
                    new("not this one at all", "ten cold tanks in a row"),
                    PeopleJson.Default.PassphraseAsked
                )
            ).Code
        );
        Assert.Equal(HttpStatusCode.OK, await Asks(other));
        await owner.Does(
            PeopleAddresses.MyPassphrase,
            new(LivingHouse.Passphrase, "ten cold tanks in a row"),
            PeopleJson.Default.PassphraseAsked
        );

        Assert.Equal(HttpStatusCode.OK, await Asks(owner));
        Assert.Equal(HttpStatusCode.Unauthorized, await Asks(other));
        Assert.Equal(
            "sign-in-wrong",
            (await other.IsRefused(PeopleAddresses.SignIn, signIn, PeopleJson.Default.SignInAsked)).Code
        );
    }

    [Fact]
    public async Task Each_sees_the_own_sessions_and_ends_no_others()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var helper = await house.Somebody(Role.Helper);
        var owners = Assert.Single(
            await owner.Reads(PeopleAddresses.MySessions, PeopleJson.Default.IReadOnlyListSessionSeen)
        );
        Assert.True(owners.IsThis);

        using var refused = await helper.Post($"{PeopleAddresses.MySessions}/{owners.Id}/end");
        Assert.Equal(HttpStatusCode.NotFound, refused.StatusCode);
        Assert.Equal(HttpStatusCode.OK, await Asks(owner));
        using var left = await helper.Post(PeopleAddresses.SignOut);
        Assert.Equal(HttpStatusCode.NoContent, left.StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, await Asks(helper));
    }

    [Fact]
    public async Task A_session_says_which_device_and_which_store_it_was()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var helper = house.Guest();
        helper.Headers.UserAgent.ParseAdd(
            "Mozilla/5.0 (Linux; Android 16) Chrome/156.0.0.0 Mobile Safari/537.36"
        );
        var code = "whatever";
        Assert.Equal(
            "code-wrong",
            (await helper.IsRefused(PeopleAddresses.Invitation, new(code), PeopleJson.Default.CodeAsked)).Code
        );
        await helper.Does(
            PeopleAddresses.SignIn,
            new("Ada", LivingHouse.Passphrase),
            PeopleJson.Default.SignInAsked
        );
        helper.Headers.Add(PeopleAddresses.ReplicaHeader, "019ab5d0-5c00-7000-8000-0000deadbeef");
        Assert.Equal(HttpStatusCode.OK, await Asks(helper));

        var session = (
            await helper.Reads(PeopleAddresses.MySessions, PeopleJson.Default.IReadOnlyListSessionSeen)
        ).Single(it => it.IsThis);
        Assert.Equal(("Chrome, Android", "deadbeef"), (session.Device, session.Replica));
    }

    [Fact]
    public async Task A_session_that_nobody_used_for_ninety_days_is_over()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        house.Clock.Advance(Duration.FromDays(60));
        Assert.Equal(HttpStatusCode.OK, await Asks(owner));
        house.Clock.Advance(Duration.FromDays(60));
        Assert.Equal(HttpStatusCode.OK, await Asks(owner));
        house.Clock.Advance(Duration.FromDays(91));
        Assert.Equal(HttpStatusCode.Unauthorized, await Asks(owner));
    }

    [Fact]
    public async Task A_code_for_an_owner_who_forgot_gives_a_new_passphrase_and_the_role_stays()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        var made = Broodtide.Server.People.Invitations.Make(
            house.Invitations,
            Role.Owner,
            house.People.Named("Ada"),
            house.Clock.GetCurrentInstant()
        );
        using var guest = house.Guest();

        await guest.Does(
            PeopleAddresses.Join,
            new(made.Code, null, "ten cold tanks in a row"),
            PeopleJson.Default.JoinAsked
        );

        Assert.Equal(("Ada", "owner"), ((await guest.Door()).Me!.Name, (await guest.Door()).Me!.Role));
        Assert.Equal(HttpStatusCode.Unauthorized, await Asks(owner));
    }
}
