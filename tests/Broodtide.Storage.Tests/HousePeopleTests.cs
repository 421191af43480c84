using System.Text;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

public sealed class HousePeopleTests : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 1, 12, 0);

    private readonly Folder _folder = new();
    private readonly HouseFile _house;
    private readonly HousePeople _people;
    private readonly HouseSessions _sessions;
    private readonly HouseInvitations _invitations;

    public HousePeopleTests()
    {
        _house = HouseFile.Open(_folder["house.db"]);
        _people = new HousePeople(_house);
        _sessions = new HouseSessions(_house);
        _invitations = new HouseInvitations(_house);
    }

    public void Dispose()
    {
        _house.Dispose();
        _folder.Dispose();
    }

    private static Person New(string name, Role role = Role.Owner) =>
        new(new PersonId(Guid.CreateVersion7()), name, role, "hash of " + name, Noon, null);

    private static Session NewSession(PersonId person, Instant made) =>
        new(Guid.CreateVersion7(), person, "Browser", made, made, null, null);

    private Person Owner()
    {
        var owner = New("Ada");
        Assert.True(_people.AddFirstOwner(owner));
        return owner;
    }

    private Person Invited(string name, Role role = Role.Helper, string code = "code")
    {
        _invitations.Add(
            new(Guid.CreateVersion7(), role, null, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of(code)
        );
        var (how, person) = _invitations.Accept(SecretHash.Of(code), New(name), Noon);
        Assert.Equal(Acceptance.Accepted, how);
        return person!;
    }

    [Fact]
    public void A_house_gets_its_first_owner_once_and_keeps_everything_over_a_restart()
    {
        Assert.False(_people.HasOwner());
        var owner = Owner();
        Assert.False(_people.AddFirstOwner(New("Eve")));
        _house.Dispose();

        using var again = HouseFile.Open(_folder["house.db"]);
        Assert.Equal(owner, Assert.Single(new HousePeople(again).All()));
    }

    [Fact]
    public void The_first_person_is_the_owner_or_nobody() =>
        Assert.Throws<ArgumentException>(() => _people.AddFirstOwner(New("Ada", Role.Keeper)));

    [Theory]
    [InlineData("ada")]
    [InlineData("  ADA ")]
    public void A_name_is_found_in_any_case_and_with_spaces_around(string typed)
    {
        Owner();
        Assert.Equal("Ada", _people.Named(typed)?.Name);
        Assert.Null(_people.Named("Ad a"));
    }

    [Fact]
    public void An_invitation_opens_once_and_gives_the_role_it_was_made_with()
    {
        Owner();
        var helper = Invited("Berta");

        Assert.Equal(Role.Helper, helper.Role);
        var (again, none) = _invitations.Accept(SecretHash.Of("code"), New("Carl"), Noon);
        Assert.Equal(Acceptance.NoSuchCode, again);
        Assert.Null(none);
        Assert.Null(_people.Named("Carl"));
    }

    [Fact]
    public void A_taken_name_lets_nobody_in_and_leaves_the_code_good()
    {
        Owner();
        _invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, null, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of("code")
        );

        Assert.Equal(Acceptance.NameTaken, _invitations.Accept(SecretHash.Of("code"), New("ADA"), Noon).How);
        Assert.Equal(Acceptance.Accepted, _invitations.Accept(SecretHash.Of("code"), New("Dora"), Noon).How);
    }

    [Fact]
    public void An_invitation_that_is_too_old_or_was_taken_back_opens_nothing()
    {
        var expires = Noon + Duration.FromDays(7);
        _invitations.Add(new(Guid.CreateVersion7(), Role.Reader, null, Noon, expires), SecretHash.Of("old"));
        var back = new Invitation(Guid.CreateVersion7(), Role.Reader, null, Noon, expires);
        _invitations.Add(back, SecretHash.Of("back"));

        Assert.NotNull(_invitations.Find(SecretHash.Of("old"), expires - Duration.FromMilliseconds(1)));
        Assert.Null(_invitations.Find(SecretHash.Of("old"), expires));
        Assert.True(_invitations.Withdraw(back.Id, Noon));
        Assert.False(_invitations.Withdraw(back.Id, Noon));
        Assert.Null(_invitations.Find(SecretHash.Of("back"), Noon));
        Assert.Single(_invitations.Waiting(Noon));
    }

    [Fact]
    public void A_code_for_a_person_gives_a_new_passphrase_ends_the_sessions_and_replaces_the_code_before()
    {
        var owner = Owner();
        _sessions.Begin(NewSession(owner.Id, Noon), SecretHash.Of("key"));
        var expires = Noon + Duration.FromDays(1);
        _invitations.Add(
            new(Guid.CreateVersion7(), Role.Owner, owner.Id, Noon, expires),
            SecretHash.Of("one")
        );
        _invitations.Add(
            new(Guid.CreateVersion7(), Role.Owner, owner.Id, Noon, expires),
            SecretHash.Of("two")
        );

        Assert.Null(_invitations.Find(SecretHash.Of("one"), Noon));
        var (how, person) = _invitations.Accept(SecretHash.Of("two"), New("Whoever"), Noon);

        Assert.Equal(Acceptance.Accepted, how);
        Assert.Equal(owner with { PassphraseHash = "hash of Whoever" }, person);
        Assert.Null(_sessions.Find(SecretHash.Of("key")));
    }

    [Fact]
    public void Who_is_let_out_has_no_session_and_no_passphrase_but_keeps_the_name_and_can_come_again()
    {
        Owner();
        var helper = Invited("Berta");
        _sessions.Begin(NewSession(helper.Id, Noon), SecretHash.Of("key"));

        Assert.Equal(PersonChange.Done, _people.Remove(helper.Id, Noon));
        Assert.Equal(PersonChange.Unknown, _people.Remove(helper.Id, Noon));

        Assert.Null(_sessions.Find(SecretHash.Of("key")));
        var left = _people.Find(helper.Id)!;
        Assert.Equal(("Berta", null, Noon), (left.Name, left.PassphraseHash, left.Removed!.Value));
        Assert.Equal(PersonChange.Unknown, _people.SetPassphrase(helper.Id, "other"));
        _invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, helper.Id, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of("again")
        );
        var (_, back) = _invitations.Accept(SecretHash.Of("again"), New("Berta"), Noon);
        Assert.Equal((Role.Reader, (Instant?)null), (back!.Role, back.Removed));
    }

    [Fact]
    public void The_last_owner_stays_and_one_of_two_may_go()
    {
        var owner = Owner();
        var second = Invited("Berta");

        Assert.Equal(PersonChange.LastOwner, _people.Remove(owner.Id, Noon));
        Assert.Equal(PersonChange.LastOwner, _people.SetRole(owner.Id, Role.Keeper));
        Assert.Equal(PersonChange.Done, _people.SetRole(second.Id, Role.Owner));
        Assert.Equal(PersonChange.Done, _people.SetRole(owner.Id, Role.Keeper));
        Assert.True(_people.HasOwner());
    }

    [Fact]
    public void A_revoked_session_is_found_no_more_and_only_its_own_person_may_be_named_for_it()
    {
        var owner = Owner();
        var helper = Invited("Berta");
        var session = NewSession(owner.Id, Noon);
        _sessions.Begin(session, SecretHash.Of("key"));

        Assert.Equal(owner, _sessions.Find(SecretHash.Of("key"))?.Person);
        Assert.False(_sessions.Revoke(session.Id, helper.Id, Noon));
        Assert.NotNull(_sessions.Find(SecretHash.Of("key")));
        Assert.True(_sessions.Revoke(session.Id, owner.Id, Noon));
        Assert.Null(_sessions.Find(SecretHash.Of("key")));
    }

    [Fact]
    public void All_sessions_but_one_can_be_ended_and_what_was_seen_of_them_is_kept()
    {
        var owner = Owner();
        var (first, second) = (NewSession(owner.Id, Noon), NewSession(owner.Id, Noon));
        _sessions.Begin(first, SecretHash.Of("first"));
        _sessions.Begin(second, SecretHash.Of("second"));
        var replica = Samples.NewReplica();
        _sessions.Note(second.Id, Noon + Duration.FromMinutes(5), replica);
        _sessions.Note(second.Id, Noon, null);

        Assert.Equal(1, _sessions.RevokeAll(owner.Id, second.Id, Noon));
        Assert.Equal(
            second with
            {
                Seen = Noon + Duration.FromMinutes(5),
                Replica = replica,
            },
            Assert.Single(_sessions.Held(owner.Id))
        );
    }

    [Fact]
    public void Sessions_unseen_for_half_a_year_are_forgotten_when_another_begins()
    {
        var owner = Owner();
        _sessions.Begin(NewSession(owner.Id, Noon), SecretHash.Of("old"));
        _sessions.Begin(NewSession(owner.Id, Noon + Duration.FromDays(181)), SecretHash.Of("new"));

        Assert.Null(_sessions.Find(SecretHash.Of("old")));
        Assert.NotNull(_sessions.Find(SecretHash.Of("new")));
    }

    [Fact]
    public void The_file_holds_neither_a_session_key_nor_a_code()
    {
        var owner = Owner();
        const string key = "the-key-that-a-phone-holds";
        const string code = "THE-CODE-GIVEN-AWAY";
        _sessions.Begin(NewSession(owner.Id, Noon), SecretHash.Of(key));
        _invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, null, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of(code)
        );
        _house.Dispose();

        var kept = string.Concat(
            Directory
                .EnumerateFiles(_folder.ToString())
                .Select(file => Encoding.Latin1.GetString(File.ReadAllBytes(file)))
        );
        Assert.Contains("Ada", kept, StringComparison.Ordinal);
        Assert.DoesNotContain(key, kept, StringComparison.Ordinal);
        Assert.DoesNotContain(code, kept, StringComparison.Ordinal);
    }
}
