using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>What everything that remembers people must do; run by each of them.</summary>
public abstract class HousePeopleContract : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 1, 12, 0);

    private HouseStore? _open;

    private HousePeople People => new(House);

    private HouseSessions Sessions => new(House);

    private HouseInvitations Invitations => new(House);

    private HouseStore House => _open ??= Open();

    public virtual void Dispose()
    {
        GC.SuppressFinalize(this);
        _open?.Dispose();
    }

    /// <summary>The house, as before or as after the program was ended and started again.</summary>
    private protected abstract HouseStore Open();

    /// <summary>Every byte that is kept, as far as it can be looked at from outside.</summary>
    private protected abstract string Kept();

    private static Person New(string name, Role role = Role.Owner) =>
        new(new PersonId(Guid.CreateVersion7()), name, role, "hash of " + name, Noon, null);

    private static Session NewSession(PersonId person, Instant made) =>
        new(Guid.CreateVersion7(), person, "Browser", made, made, null, null);

    private Person Owner()
    {
        var owner = New("Ada");
        Assert.True(People.AddFirstOwner(owner));
        return owner;
    }

    private Person Invited(string name, Role role = Role.Helper, string code = "code")
    {
        Invitations.Add(
            new(Guid.CreateVersion7(), role, null, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of(code)
        );
        var (how, person) = Invitations.Accept(SecretHash.Of(code), New(name), Noon);
        Assert.Equal(Acceptance.Accepted, how);
        return person!;
    }

    [Fact]
    public void A_house_gets_its_first_owner_once_and_keeps_everything_over_a_restart()
    {
        Assert.False(People.HasOwner());
        var owner = Owner();
        Assert.False(People.AddFirstOwner(New("Eve")));
        _open!.Dispose();
        _open = null;
        Assert.Equal(owner, Assert.Single(People.All()));
    }

    [Fact]
    public void The_first_person_is_the_owner_or_nobody() =>
        Assert.Throws<ArgumentException>(() => People.AddFirstOwner(New("Ada", Role.Keeper)));

    [Theory]
    [InlineData("ada")]
    [InlineData("  ADA ")]
    public void A_name_is_found_in_any_case_and_with_spaces_around(string typed)
    {
        Owner();
        Assert.Equal("Ada", People.Named(typed)?.Name);
        Assert.Null(People.Named("Ad a"));
    }

    [Fact]
    public void An_invitation_opens_once_and_gives_the_role_it_was_made_with()
    {
        Owner();
        var helper = Invited("Berta");

        Assert.Equal(Role.Helper, helper.Role);
        var (again, none) = Invitations.Accept(SecretHash.Of("code"), New("Carl"), Noon);
        Assert.Equal(Acceptance.NoSuchCode, again);
        Assert.Null(none);
        Assert.Null(People.Named("Carl"));
    }

    [Fact]
    public void A_taken_name_lets_nobody_in_and_leaves_the_code_good()
    {
        Owner();
        Invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, null, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of("code")
        );

        Assert.Equal(Acceptance.NameTaken, Invitations.Accept(SecretHash.Of("code"), New("ADA"), Noon).How);
        Assert.Equal(Acceptance.Accepted, Invitations.Accept(SecretHash.Of("code"), New("Dora"), Noon).How);
    }

    [Fact]
    public void An_invitation_that_is_too_old_or_was_taken_back_opens_nothing()
    {
        var expires = Noon + Duration.FromDays(7);
        Invitations.Add(new(Guid.CreateVersion7(), Role.Reader, null, Noon, expires), SecretHash.Of("old"));
        var back = new Invitation(Guid.CreateVersion7(), Role.Reader, null, Noon, expires);
        Invitations.Add(back, SecretHash.Of("back"));

        Assert.NotNull(Invitations.Find(SecretHash.Of("old"), expires - Duration.FromMilliseconds(1)));
        Assert.Null(Invitations.Find(SecretHash.Of("old"), expires));
        Assert.True(Invitations.Withdraw(back.Id, Noon));
        Assert.False(Invitations.Withdraw(back.Id, Noon));
        Assert.Null(Invitations.Find(SecretHash.Of("back"), Noon));
        Assert.Single(Invitations.Waiting(Noon));
    }

    [Fact]
    public void A_code_for_a_person_gives_a_new_passphrase_ends_theSessions_and_replaces_the_code_before()
    {
        var owner = Owner();
        Sessions.Begin(NewSession(owner.Id, Noon), SecretHash.Of("key"));
        var expires = Noon + Duration.FromDays(1);
        Invitations.Add(
            new(Guid.CreateVersion7(), Role.Owner, owner.Id, Noon, expires),
            SecretHash.Of("one")
        );
        Invitations.Add(
            new(Guid.CreateVersion7(), Role.Owner, owner.Id, Noon, expires),
            SecretHash.Of("two")
        );

        Assert.Null(Invitations.Find(SecretHash.Of("one"), Noon));
        var (how, person) = Invitations.Accept(SecretHash.Of("two"), New("Whoever"), Noon);

        Assert.Equal(Acceptance.Accepted, how);
        Assert.Equal(owner with { PassphraseHash = "hash of Whoever" }, person);
        Assert.Null(Sessions.Find(SecretHash.Of("key")));
    }

    [Fact]
    public void Who_is_let_out_has_no_session_and_no_passphrase_but_keeps_the_name_and_can_come_again()
    {
        Owner();
        var helper = Invited("Berta");
        Sessions.Begin(NewSession(helper.Id, Noon), SecretHash.Of("key"));

        Assert.Equal(PersonChange.Done, People.Remove(helper.Id, Noon));
        Assert.Equal(PersonChange.Unknown, People.Remove(helper.Id, Noon));

        Assert.Null(Sessions.Find(SecretHash.Of("key")));
        var left = People.Find(helper.Id)!;
        Assert.Equal(("Berta", null, Noon), (left.Name, left.PassphraseHash, left.Removed!.Value));
        Assert.Equal(PersonChange.Unknown, People.SetPassphrase(helper.Id, "other"));
        Invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, helper.Id, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of("again")
        );
        var (_, back) = Invitations.Accept(SecretHash.Of("again"), New("Berta"), Noon);
        Assert.Equal((Role.Reader, (Instant?)null), (back!.Role, back.Removed));
    }

    [Fact]
    public void The_last_owner_stays_and_one_of_two_may_go()
    {
        var owner = Owner();
        var second = Invited("Berta");

        Assert.Equal(PersonChange.LastOwner, People.Remove(owner.Id, Noon));
        Assert.Equal(PersonChange.LastOwner, People.SetRole(owner.Id, Role.Keeper));
        Assert.Equal(PersonChange.Done, People.SetRole(second.Id, Role.Owner));
        Assert.Equal(PersonChange.Done, People.SetRole(owner.Id, Role.Keeper));
        Assert.True(People.HasOwner());
    }

    [Fact]
    public void A_revoked_session_is_found_no_more_and_only_its_own_person_may_be_named_for_it()
    {
        var owner = Owner();
        var helper = Invited("Berta");
        var session = NewSession(owner.Id, Noon);
        Sessions.Begin(session, SecretHash.Of("key"));

        Assert.Equal(owner, Sessions.Find(SecretHash.Of("key"))?.Person);
        Assert.False(Sessions.Revoke(session.Id, helper.Id, Noon));
        Assert.NotNull(Sessions.Find(SecretHash.Of("key")));
        Assert.True(Sessions.Revoke(session.Id, owner.Id, Noon));
        Assert.Null(Sessions.Find(SecretHash.Of("key")));
    }

    [Fact]
    public void AllSessions_but_one_can_be_ended_and_what_was_seen_of_them_is_kept()
    {
        var owner = Owner();
        var (first, second) = (NewSession(owner.Id, Noon), NewSession(owner.Id, Noon));
        Sessions.Begin(first, SecretHash.Of("first"));
        Sessions.Begin(second, SecretHash.Of("second"));
        var replica = Samples.NewReplica();
        Sessions.Note(second.Id, Noon + Duration.FromMinutes(5), replica);
        Sessions.Note(second.Id, Noon, null);

        Assert.Equal(1, Sessions.RevokeAll(owner.Id, second.Id, Noon));
        Assert.Equal(
            second with
            {
                Seen = Noon + Duration.FromMinutes(5),
                Replica = replica,
            },
            Assert.Single(Sessions.Held(owner.Id))
        );
    }

    [Fact]
    public void Sessions_unseen_for_half_a_year_are_forgotten_when_another_begins()
    {
        var owner = Owner();
        Sessions.Begin(NewSession(owner.Id, Noon), SecretHash.Of("old"));
        Sessions.Begin(NewSession(owner.Id, Noon + Duration.FromDays(181)), SecretHash.Of("new"));

        Assert.Null(Sessions.Find(SecretHash.Of("old")));
        Assert.NotNull(Sessions.Find(SecretHash.Of("new")));
    }

    [Fact]
    public void Neither_a_session_key_nor_a_code_is_kept()
    {
        var owner = Owner();
        const string key = "the-key-that-a-phone-holds";
        const string code = "THE-CODE-GIVEN-AWAY";
        Sessions.Begin(NewSession(owner.Id, Noon), SecretHash.Of(key));
        Invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, null, Noon, Noon + Duration.FromDays(7)),
            SecretHash.Of(code)
        );
        _open!.Dispose();

        var kept = Kept();
        Assert.Contains("Ada", kept, StringComparison.Ordinal);
        Assert.DoesNotContain(key, kept, StringComparison.Ordinal);
        Assert.DoesNotContain(code, kept, StringComparison.Ordinal);
    }
}
