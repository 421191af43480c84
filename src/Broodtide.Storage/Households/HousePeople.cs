using System.Data.Common;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>
/// The people of the house. A name belongs to one person for good, also after that person was let out, because it
/// stays under what was written.
/// </summary>
/// <param name="house">Where they are kept.</param>
public sealed class HousePeople(HouseStore house)
{
    internal const string Columns = "id, name, role, passphrase, made, removed";

    /// <summary>Whether anybody owns the house.</summary>
    public bool HasOwner() => house.Ask(OwnerCount) > 0;

    /// <summary>Everybody, those let out too, in the order of coming.</summary>
    public IReadOnlyList<Person> All() =>
        house.Ask(file => file.List(Read, $"SELECT {Columns} FROM person ORDER BY made, id"));

    /// <summary>A person by id, let out or not.</summary>
    public Person? Find(PersonId id) => house.Ask(file => Find(file, id));

    /// <summary>A person by name, let out or not; spellings that differ in case or spaces are the same.</summary>
    public Person? Named(string name) => house.Ask(file => Named(file, name));

    /// <summary>Makes the first owner. False, and nothing is changed, where there is an owner or the name is taken.</summary>
    public bool AddFirstOwner(Person owner)
    {
        if (owner.Role is not Role.Owner)
        {
            throw new ArgumentException("The first person owns the house.", nameof(owner));
        }

        return house.Change(file =>
        {
            if (OwnerCount(file) > 0 || Named(file, owner.Name) is not null)
            {
                return false;
            }

            Add(file, owner);
            return true;
        });
    }

    /// <summary>Keeps another hash for a person's passphrase.</summary>
    public PersonChange SetPassphrase(PersonId id, string hash)
    {
        ArgumentException.ThrowIfNullOrEmpty(hash);
        return house.Change(file =>
            file.Run(
                "UPDATE person SET passphrase=$hash WHERE id=$id AND removed IS NULL",
                ("$hash", hash),
                ("$id", id.Value.Bytes())
            ) == 1
                ? PersonChange.Done
                : PersonChange.Unknown
        );
    }

    /// <summary>Gives a person another role. It holds from the next thing the person asks.</summary>
    public PersonChange SetRole(PersonId id, Role role) =>
        house.Change(file =>
            Standing(file, id) is not { } person ? PersonChange.Unknown
            : person.Role is Role.Owner && role is not Role.Owner && OwnerCount(file) == 1
                ? PersonChange.LastOwner
            : Put(file, id, role)
        );

    /// <summary>
    /// Lets a person out: every session ends, the passphrase is forgotten, codes for that person are withdrawn. The
    /// name stays.
    /// </summary>
    public PersonChange Remove(PersonId id, Instant at) =>
        house.Change(file =>
        {
            if (Standing(file, id) is not { } person)
            {
                return PersonChange.Unknown;
            }

            if (person.Role is Role.Owner && OwnerCount(file) == 1)
            {
                return PersonChange.LastOwner;
            }

            (string, object?)[] arguments = [("$id", id.Value.Bytes()), ("$at", at.Milliseconds())];
            file.Run("UPDATE person SET removed=$at, passphrase=NULL WHERE id=$id", arguments);
            file.Run("UPDATE session SET revoked=$at WHERE person=$id AND revoked IS NULL", arguments);
            file.Run(
                "UPDATE invitation SET withdrawn=$at WHERE person=$id AND used IS NULL AND withdrawn IS NULL",
                arguments
            );
            return PersonChange.Done;
        });

    internal static void Add(SharedTables file, Person person) =>
        file.Run(
            "INSERT INTO person(id, name, name_key, role, passphrase, made, removed) "
                + "VALUES($id, $name, $key, $role, $hash, $made, $removed)",
            ("$id", person.Id.Value.Bytes()),
            ("$name", person.Name),
            ("$key", PersonName.KeyOf(person.Name)),
            ("$role", person.Role.Code()),
            ("$hash", person.PassphraseHash),
            ("$made", person.Made.Milliseconds()),
            ("$removed", person.Removed?.Milliseconds())
        );

    internal static Person? Find(SharedTables file, PersonId id) =>
        file.List(Read, $"SELECT {Columns} FROM person WHERE id=$id", ("$id", id.Value.Bytes()))
            is [var found]
            ? found
            : null;

    internal static Person? Named(SharedTables file, string name) =>
        file.List(Read, $"SELECT {Columns} FROM person WHERE name_key=$key", ("$key", PersonName.KeyOf(name)))
            is [var found]
            ? found
            : null;

    internal static Person Read(DbDataReader row) =>
        new(
            new PersonId(row.Id(0)),
            row.GetString(1),
            RoleCodes.Parse(row.GetString(2)) ?? Role.Reader,
            row.IsDBNull(3) ? null : row.GetString(3),
            row.Moment(4),
            row.MomentOrNone(5)
        );

    private static Person? Standing(SharedTables file, PersonId id) =>
        Find(file, id) is { Removed: null } person ? person : null;

    private static long OwnerCount(SharedTables file) =>
        file.Ask<long>("SELECT count(*) FROM person WHERE role='owner' AND removed IS NULL");

    private static PersonChange Put(SharedTables file, PersonId id, Role role)
    {
        file.Run(
            "UPDATE person SET role=$role WHERE id=$id",
            ("$role", role.Code()),
            ("$id", id.Value.Bytes())
        );
        return PersonChange.Done;
    }
}
