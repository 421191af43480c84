using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

public sealed class HouseCalendarsTests : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 1, 12, 0);

    private readonly Folder _folder = new();
    private readonly HouseFile _house;
    private readonly HouseCalendars _calendars;

    public HouseCalendarsTests()
    {
        _house = HouseFile.Open(_folder["house.db"]);
        _calendars = new HouseCalendars(_house);
    }

    public void Dispose()
    {
        _house.Dispose();
        _folder.Dispose();
    }

    private static CalendarAddress New(PersonId? person = null) =>
        new(person ?? new PersonId(Guid.CreateVersion7()), Noon, "Europe/Berlin", "en.metric");

    [Fact]
    public void A_secret_opens_the_calendar_of_its_person_and_another_opens_nothing()
    {
        var address = New();
        _calendars.Put(address, SecretHash.Of("first"));
        _calendars.Put(New(), SecretHash.Of("second"));

        Assert.Equal(address, _calendars.Find(SecretHash.Of("first")));
        Assert.Equal(address, _calendars.Of(address.Person));
        Assert.Null(_calendars.Find(SecretHash.Of("third")));
    }

    [Fact]
    public void A_renewed_address_opens_and_the_one_before_does_not()
    {
        var address = New();
        _calendars.Put(address, SecretHash.Of("first"));
        _calendars.Put(address with { Made = Noon + Duration.FromDays(1) }, SecretHash.Of("renewed"));

        Assert.Null(_calendars.Find(SecretHash.Of("first")));
        Assert.Equal(Noon + Duration.FromDays(1), _calendars.Find(SecretHash.Of("renewed"))!.Made);
    }

    [Fact]
    public void What_is_switched_off_opens_nothing()
    {
        var address = New();
        _calendars.Put(address, SecretHash.Of("first"));

        Assert.True(_calendars.Remove(address.Person));
        Assert.False(_calendars.Remove(address.Person));
        Assert.Null(_calendars.Find(SecretHash.Of("first")));
        Assert.Null(_calendars.Of(address.Person));
    }

    [Fact]
    public void The_calendar_of_a_person_who_was_let_out_is_closed()
    {
        var people = new HousePeople(_house);
        var owner = new Person(new PersonId(Guid.CreateVersion7()), "Ada", Role.Owner, "hash", Noon, null);
        people.AddFirstOwner(owner);
        var invitations = new HouseInvitations(_house);
        invitations.Add(
            new(Guid.CreateVersion7(), Role.Reader, null, Noon, Noon + Duration.FromDays(1)),
            SecretHash.Of("code")
        );
        var (_, reader) = invitations.Accept(
            SecretHash.Of("code"),
            new Person(new PersonId(Guid.CreateVersion7()), "Ben", Role.Reader, "hash", Noon, null),
            Noon
        );
        _calendars.Put(New(reader!.Id), SecretHash.Of("his"));
        Assert.NotNull(_calendars.Find(SecretHash.Of("his")));

        people.Remove(reader.Id, Noon);

        Assert.Null(_calendars.Find(SecretHash.Of("his")));
    }

    [Fact]
    public void The_file_of_the_house_holds_no_secret_in_clear()
    {
        var secret = "a-secret-that-would-be-found-" + Guid.CreateVersion7().ToString("N");
        _calendars.Put(New(), SecretHash.Of(secret));
        _house.Dispose();

        foreach (var file in Directory.EnumerateFiles(Path.GetDirectoryName(_house.Path)!))
        {
            Assert.DoesNotContain(
                secret,
                File.ReadAllText(file, System.Text.Encoding.Latin1),
                StringComparison.Ordinal
            );
        }
    }
}
