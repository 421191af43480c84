using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>What everything that remembers calendars' addresses must do; run by each of them.</summary>
public abstract class HouseCalendarsContract : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 1, 12, 0);

    private HouseStore? _open;

    private HouseStore House => _open ??= Open();

    private HouseCalendars Calendars => new(House);

    public virtual void Dispose()
    {
        GC.SuppressFinalize(this);
        _open?.Dispose();
    }

    /// <summary>The house.</summary>
    private protected abstract HouseStore Open();

    /// <summary>Every byte that is kept, as far as it can be looked at from outside.</summary>
    private protected abstract string Kept();

    private static CalendarAddress New(PersonId? person = null) =>
        new(person ?? new PersonId(Guid.CreateVersion7()), Noon, "Europe/Berlin", "en.metric");

    [Fact]
    public void A_secret_opens_the_calendar_of_its_person_and_another_opens_nothing()
    {
        var address = New();
        Calendars.Put(address, SecretHash.Of("first"));
        Calendars.Put(New(), SecretHash.Of("second"));

        Assert.Equal(address, Calendars.Find(SecretHash.Of("first")));
        Assert.Equal(address, Calendars.Of(address.Person));
        Assert.Null(Calendars.Find(SecretHash.Of("third")));
    }

    [Fact]
    public void A_renewed_address_opens_and_the_one_before_does_not()
    {
        var address = New();
        Calendars.Put(address, SecretHash.Of("first"));
        Calendars.Put(address with { Made = Noon + Duration.FromDays(1) }, SecretHash.Of("renewed"));

        Assert.Null(Calendars.Find(SecretHash.Of("first")));
        Assert.Equal(Noon + Duration.FromDays(1), Calendars.Find(SecretHash.Of("renewed"))!.Made);
    }

    [Fact]
    public void What_is_switched_off_opens_nothing()
    {
        var address = New();
        Calendars.Put(address, SecretHash.Of("first"));

        Assert.True(Calendars.Remove(address.Person));
        Assert.False(Calendars.Remove(address.Person));
        Assert.Null(Calendars.Find(SecretHash.Of("first")));
        Assert.Null(Calendars.Of(address.Person));
    }

    [Fact]
    public void The_calendar_of_a_person_who_was_let_out_is_closed()
    {
        var people = new HousePeople(House);
        var owner = new Person(new PersonId(Guid.CreateVersion7()), "Ada", Role.Owner, "hash", Noon, null);
        people.AddFirstOwner(owner);
        var invitations = new HouseInvitations(House);
        invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, null, Noon, Noon + Duration.FromDays(1)),
            SecretHash.Of("code")
        );
        var (_, reader) = invitations.Accept(
            SecretHash.Of("code"),
            new Person(new PersonId(Guid.CreateVersion7()), "Ben", Role.Reader, "hash", Noon, null),
            Noon
        );
        Calendars.Put(New(reader!.Id), SecretHash.Of("his"));
        Assert.NotNull(Calendars.Find(SecretHash.Of("his")));

        people.Remove(reader.Id, Noon);

        Assert.Null(Calendars.Find(SecretHash.Of("his")));
    }

    [Fact]
    public void No_secret_is_kept_in_clear()
    {
        var secret = "a-secret-that-would-be-found-" + Guid.CreateVersion7().ToString("N");
        Calendars.Put(New(), SecretHash.Of(secret));
        House.Dispose();

        var kept = Kept();
        Assert.Contains("Europe/Berlin", kept, StringComparison.Ordinal);
        Assert.DoesNotContain(secret, kept, StringComparison.Ordinal);
    }
}
