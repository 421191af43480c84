using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Server.Stores;
using Broodtide.Server.Words;
using Broodtide.Storage;
using Broodtide.Storage.Households;
using Broodtide.Units;
using Broodtide.Workbench.People;
using NodaTime;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.People;

/// <summary>
/// People, for whoever sits at the server's own keyboard: what its owner can do from a phone, and the way back in for
/// an owner without a passphrase. Works while the server runs.
/// </summary>
internal sealed class PeopleCommands(Option<DirectoryInfo> data, StoreChoice choice)
{
    private const int Done = 0;
    private const int Refused = 2;
    private const int Failed = 3;

    private readonly Option<bool> _json = new("--json") { Description = "Print the result as JSON." };

    private readonly Argument<string> _name = new("name") { Description = "The person's name." };

    public Command Make()
    {
        var role = new Argument<string>("role") { Description = "keeper, helper or reader." };
        role.AcceptOnlyFromAmong("keeper", "helper", "reader");
        var list = new Command("list", "Who is in the house, where they are signed in, who was asked in.")
        {
            _json,
        };
        list.SetAction(parsed => Within(parsed, List));
        var invite = new Command("invite", "Make a code that lets one person in, once, within seven days.")
        {
            role,
            _json,
        };
        invite.SetAction(parsed =>
            Within(parsed, (house, told) => Invite(house, told, parsed.GetRequiredValue(role)))
        );
        var reset = new Command(
            "reset",
            "Make a code with which a person chooses a new passphrase, once, within seven days."
        )
        {
            _name,
            _json,
        };
        reset.SetAction(parsed =>
            Within(parsed, (house, told) => Reset(house, told, parsed.GetRequiredValue(_name)))
        );
        var remove = new Command(
            "remove",
            "Let a person out: every session ends at once. The name stays under what was written."
        )
        {
            _name,
        };
        remove.SetAction(parsed =>
            Within(parsed, (house, told) => Remove(house, told, parsed.GetRequiredValue(_name)))
        );
        return new Command("people", "Who may come into the house.") { list, invite, reset, remove };
    }

    private static Instant Now => SystemClock.Instance.GetCurrentInstant();

    private static int List(HouseStore house, Told told)
    {
        var people = new HousePeople(house);
        var held = new HouseSessions(house).Held().ToLookup(session => session.Person);
        var seen = new HouseSeen(
            [
                .. people
                    .All()
                    .Select(person => new PersonOfHouse(
                        person.Id.Value,
                        person.Name,
                        person.Role.Code(),
                        person.Removed is not null,
                        [.. held[person.Id].Select(session => session.ToSeen(null))]
                    )),
            ],
            [.. new HouseInvitations(house).Waiting(Now).Select(invitation => invitation.ToSeen(people))]
        );
        return told.Result(
            seen,
            PeopleJson.Default.HouseSeen,
            [
                .. seen.People.Select(person =>
                    person.IsOut
                        ? new Remark("person-out", new Argument("name", person.Name))
                        : new Remark(
                            "person-in",
                            new Argument("name", person.Name),
                            new Argument("role", person.Role),
                            new Argument("count", person.Sessions.Count)
                        )
                ),
                .. seen.Invitations.Select(invitation => new Remark(
                    "person-asked",
                    new Argument("name", invitation.For ?? Said.Sentence("person-new")),
                    new Argument("role", invitation.Role),
                    new Argument("until", Moment(invitation))
                )),
            ]
        );
    }

    private static int Invite(HouseStore house, Told told, string role) =>
        new HousePeople(house).HasOwner()
            ? Made(told, new HouseInvitations(house).Make(RoleCodes.Parse(role)!.Value, null, Now))
            : told.No(new("owner-missing"));

    private static int Reset(HouseStore house, Told told, string name) =>
        new HousePeople(house).Named(name) is { Removed: null } person
            ? Made(told, new HouseInvitations(house).Make(person.Role, person, Now))
            : told.No(new("person-unknown", new Argument("name", name)));

    private static int Remove(HouseStore house, Told told, string name)
    {
        var people = new HousePeople(house);
        if (people.Named(name) is not { } person)
        {
            return told.No(new("person-unknown", new Argument("name", name)));
        }

        var who = new Argument("name", person.Name);
        return people.Remove(person.Id, Now) switch
        {
            PersonChange.Done => told.Done(new("person-removed", who)),
            PersonChange.LastOwner => told.No(new("owner-only", who)),
            _ => told.No(new("person-out-before", who)),
        };
    }

    private static int Made(Told told, InvitationMade made) =>
        told.Result(
            made,
            PeopleJson.Default.InvitationMade,
            [
                new("code-made", new Argument("code", made.Code)),
                new("code-until", new Argument("until", Moment(made.Seen))),
            ]
        );

    private static string Moment(InvitationSeen invitation) =>
        Instant.FromUnixTimeMilliseconds(invitation.ExpiresUnixMilliseconds).ToString();

    private int Within(ParseResult parsed, Func<HouseStore, Told, int> work)
    {
        var told = new Told(parsed.InvocationConfiguration, parsed.GetValue(_json));
        var folder = parsed.GetRequiredValue(data);
        var database = choice.Read(parsed);
        if (database is null && !File.Exists(Household.PathOf(folder)))
        {
            return told.No(new("house-none", new Argument("file", Household.PathOf(folder))));
        }

        try
        {
            return HouseAtHand.With(folder, database, house => work(house, told));
        }
        catch (StoreUnusableException unusable)
        {
            parsed.InvocationConfiguration.Error.WriteLine(StoreChoice.Sentence(unusable));
            return Failed;
        }
    }

    /// <summary>Where results and refusals go.</summary>
    private sealed class Told(InvocationConfiguration to, bool json)
    {
        public int Result<T>(T result, JsonTypeInfo<T> shape, IReadOnlyList<Remark> lines)
        {
            foreach (
                var line in json ? [JsonSerializer.Serialize(result, shape)] : lines.Select(Said.Sentence)
            )
            {
                to.Output.WriteLine(line);
            }

            return PeopleCommands.Done;
        }

        public int Done(Remark what)
        {
            to.Output.WriteLine(Said.Sentence(what));
            return PeopleCommands.Done;
        }

        public int No(Remark why)
        {
            to.Error.WriteLine(Said.Sentence(why));
            return Refused;
        }
    }
}
