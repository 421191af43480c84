using System.Text.Json;
using Broodtide.Workbench.People;

namespace Broodtide.Phone.People;

/// <summary>How this phone stands with the house.</summary>
internal enum Standing
{
    /// <summary>The server was not asked yet, or is away.</summary>
    Unknown,

    /// <summary>The server lets in whoever is at the machine.</summary>
    AllAreIn,

    /// <summary>Nobody owns the house yet: the phone keeps for itself what is written.</summary>
    NoOwner,

    /// <summary>Somebody must sign in before anything is shared.</summary>
    Out,

    /// <summary>Somebody is signed in.</summary>
    In,
}

/// <summary>
/// Who uses this phone. Away from the server it stays who it was: nobody is kept from writing because nobody can be
/// asked.
/// </summary>
internal sealed class SignedIn(Func<string, string?> read, Func<string, string?, bool> write)
{
    private const string Setting = "person";

    private PersonSeen? _person = Kept(read(Setting));

    /// <summary>Somebody came in or went out.</summary>
    public event Action? Changed;

    public Standing Standing { get; private set; }

    /// <summary>Who is signed in, or was the last time that the server could be asked.</summary>
    public PersonSeen? Person => Standing is Standing.AllAreIn ? null : _person;

    /// <summary>Whether entries may go to the server and come from it.</summary>
    public bool MayShare => Standing is Standing.In or Standing.AllAreIn;

    /// <summary>The server said who is in.</summary>
    public void Learn(DoorSeen door)
    {
        var standing =
            door.AllAreIn ? Standing.AllAreIn
            : door.Me is not null ? Standing.In
            : door.HasOwner ? Standing.Out
            : Standing.NoOwner;
        var person = standing is Standing.In ? door.Me : _person;
        if (standing == Standing && person == _person)
        {
            return;
        }

        Standing = standing;
        Keep(person);
        Changed?.Invoke();
    }

    /// <summary>The server shares nothing with this phone any more, until somebody signs in.</summary>
    public void TurnedAway(string code)
    {
        var standing = code == "owner-missing" ? Standing.NoOwner : Standing.Out;
        if (standing != Standing)
        {
            Standing = standing;
            Changed?.Invoke();
        }
    }

    /// <summary>Somebody signed out on this phone by will: the name goes too.</summary>
    public void WentOut()
    {
        Standing = Standing.Out;
        Keep(null);
        Changed?.Invoke();
    }

    private void Keep(PersonSeen? person)
    {
        if (person != _person)
        {
            _person = person;
            write(
                Setting,
                person is null ? null : JsonSerializer.Serialize(person, PeopleJson.Default.PersonSeen)
            );
        }
    }

    private static PersonSeen? Kept(string? text)
    {
        try
        {
            return text is null ? null : JsonSerializer.Deserialize(text, PeopleJson.Default.PersonSeen);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
