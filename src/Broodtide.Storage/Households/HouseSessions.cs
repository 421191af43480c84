using System.Data.Common;
using Broodtide.Domain;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>One sign-in of a person on a device.</summary>
/// <param name="Id">Which sign-in; may be shown, opens nothing.</param>
/// <param name="Person">Whose it is.</param>
/// <param name="Device">What the device calls itself.</param>
/// <param name="Made">When the person signed in.</param>
/// <param name="Seen">When it was last used, to the minute.</param>
/// <param name="Revoked">When it was ended; none while it holds.</param>
/// <param name="Replica">The store that the device said it writes, last; none if it never said.</param>
public sealed record Session(
    Guid Id,
    PersonId Person,
    string Device,
    Instant Made,
    Instant Seen,
    Instant? Revoked,
    ReplicaId? Replica
);

/// <summary>
/// Who is signed in where. The key that a device holds is kept as its hash only, so that this file opens no door.
/// </summary>
/// <param name="house">Where they are kept.</param>
public sealed class HouseSessions(HouseStore house)
{
    private const string Columns = "id, person, device, made, seen, revoked, replica";

    // What was ended, or never seen again, is of no use to anybody after half a year.
    private static readonly Duration Forgotten = Duration.FromDays(180);

    /// <summary>Begins a session; what ended long ago is forgotten.</summary>
    public void Begin(Session session, ReadOnlySpan<byte> keyHash)
    {
        var hash = keyHash.ToArray();
        house.Change(file =>
        {
            file.Run(
                "DELETE FROM session WHERE coalesce(revoked, seen) < $before",
                ("$before", (session.Made - Forgotten).Milliseconds())
            );
            return file.Run(
                "INSERT INTO session(id, key_hash, person, device, made, seen) "
                    + "VALUES($id, $hash, $person, $device, $made, $seen)",
                ("$id", session.Id.Bytes()),
                ("$hash", hash),
                ("$person", session.Person.Value.Bytes()),
                ("$device", session.Device),
                ("$made", session.Made.Milliseconds()),
                ("$seen", session.Seen.Milliseconds())
            );
        });
    }

    /// <summary>The session of a key with its person; none where it was ended, or the person let out.</summary>
    public (Session Session, Person Person)? Find(ReadOnlySpan<byte> keyHash)
    {
        var hash = keyHash.ToArray();
        return house.Ask<(Session, Person)?>(file =>
            file.List(
                Read,
                $"SELECT {Columns} FROM session WHERE key_hash=$hash AND revoked IS NULL",
                ("$hash", hash)
            )
                is [var session]
            && HousePeople.Find(file, session.Person) is { Removed: null } person
                ? (session, person)
                : null
        );
    }

    /// <summary>The sessions that hold, of one person or of all, the one used last first.</summary>
    public IReadOnlyList<Session> Held(PersonId? person = null) =>
        house.Ask(file =>
            file.List(
                Read,
                $"SELECT {Columns} FROM session WHERE revoked IS NULL AND person=coalesce($person, person) "
                    + "ORDER BY seen DESC, id",
                ("$person", person?.Value.Bytes())
            )
        );

    /// <summary>Notes that a session was used, and by which store if that was said.</summary>
    public void Note(Guid id, Instant seen, ReplicaId? replica) =>
        house.Change(file =>
            file.Run(
                "UPDATE session SET seen=CASE WHEN seen > $seen THEN seen ELSE $seen END, replica=coalesce($replica, replica) WHERE id=$id",
                ("$seen", seen.Milliseconds()),
                ("$replica", replica?.Value.Bytes()),
                ("$id", id.Bytes())
            )
        );

    /// <summary>Ends a session, if it is of the person named. False where there is none.</summary>
    /// <param name="id">Which session.</param>
    /// <param name="of">Whose it must be; anybody's if none is named.</param>
    /// <param name="at">When.</param>
    public bool Revoke(Guid id, PersonId? of, Instant at) =>
        house.Change(file =>
            file.Run(
                "UPDATE session SET revoked=$at WHERE id=$id AND revoked IS NULL "
                    + "AND person=coalesce($person, person)",
                ("$at", at.Milliseconds()),
                ("$id", id.Bytes()),
                ("$person", of?.Value.Bytes())
            ) == 1
        );

    /// <summary>Ends all sessions of a person but one. Answers how many.</summary>
    public int RevokeAll(PersonId person, Guid? but, Instant at) =>
        house.Change(file => RevokeAll(file, person, but, at));

    internal static int RevokeAll(SharedTables file, PersonId person, Guid? but, Instant at) =>
        file.Run(
            "UPDATE session SET revoked=$at WHERE person=$person AND revoked IS NULL "
                + "AND id IS DISTINCT FROM $but",
            ("$at", at.Milliseconds()),
            ("$person", person.Value.Bytes()),
            ("$but", but?.Bytes())
        );

    private static Session Read(DbDataReader row) =>
        new(
            row.Id(0),
            new PersonId(row.Id(1)),
            row.GetString(2),
            row.Moment(3),
            row.Moment(4),
            row.MomentOrNone(5),
            row.IdOrNone(6) is { } replica ? new ReplicaId(replica) : null
        );
}
