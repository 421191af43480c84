using System.Data.Common;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>What the house remembers about sharing, in its file.</summary>
/// <param name="house">Where it is kept.</param>
public sealed class HouseSharing(HouseStore house) : IHouseMemory
{
    /// <inheritdoc/>
    public IReadOnlyDictionary<ReplicaId, PersonId> Bindings() =>
        house
            .Ask(file =>
                file.List(
                    row => (Replica: Replica(row, 0), Person: Person(row, 1)),
                    "SELECT replica, person FROM store_of"
                )
            )
            .ToDictionary(one => one.Replica, one => one.Person);

    /// <inheritdoc/>
    public void Bind(IReadOnlyCollection<ReplicaId> replicas, PersonId person) =>
        Each(
            replicas,
            (file, replica) =>
                file.Run(
                    "INSERT INTO store_of(replica, person) VALUES($replica, $person) ON CONFLICT DO NOTHING",
                    ("$replica", replica.Value.Bytes()),
                    ("$person", person.Value.Bytes())
                )
        );

    /// <inheritdoc/>
    public IReadOnlySet<ReplicaId> OwnReplicas() =>
        house.Ask(file => file.List(row => Replica(row, 0), "SELECT replica FROM own_store")).ToHashSet();

    /// <inheritdoc/>
    public void AddOwn(IReadOnlyCollection<ReplicaId> replicas) =>
        Each(
            replicas,
            (file, replica) =>
                file.Run(
                    "INSERT INTO own_store(replica) VALUES($replica) ON CONFLICT DO NOTHING",
                    ("$replica", replica.Value.Bytes())
                )
        );

    /// <inheritdoc/>
    public IReadOnlyDictionary<ReplicaId, Instant> Revoked() =>
        house
            .Ask(file =>
                file.List(
                    row => (Replica: Replica(row, 0), At: row.Moment(1)),
                    "SELECT replica, at FROM revoked_store"
                )
            )
            .ToDictionary(one => one.Replica, one => one.At);

    /// <inheritdoc/>
    public void Revoke(IReadOnlyCollection<ReplicaId> replicas, Instant at) =>
        Each(
            replicas,
            (file, replica) =>
                file.Run(
                    "INSERT INTO revoked_store(replica, at) VALUES($replica, $at) ON CONFLICT DO NOTHING",
                    ("$replica", replica.Value.Bytes()),
                    ("$at", at.Milliseconds())
                )
        );

    /// <inheritdoc/>
    public Instant? RefillUntil() =>
        house.Ask(file => file.List(row => row.Moment(0), "SELECT until FROM refill")) is [var until]
            ? until
            : null;

    /// <inheritdoc/>
    public void SetRefill(Instant? until) =>
        house.Change(file =>
        {
            file.Run("DELETE FROM refill");
            return until is { } end
                ? file.Run("INSERT INTO refill(one, until) VALUES(1, $until)", ("$until", end.Milliseconds()))
                : 0;
        });

    /// <inheritdoc/>
    public IReadOnlyList<Reported> Reports() =>
        house.Ask(file =>
            file.List(
                row => new Reported(
                    Replica(row, 0),
                    Person(row, 1),
                    row.GetInt32(2),
                    row.Moment(3),
                    row.GetInt64(4)
                ),
                "SELECT replica, person, waiting, at, seconds_ahead FROM store_report ORDER BY replica"
            )
        );

    /// <inheritdoc/>
    public void Report(IReadOnlyCollection<Reported> reports) =>
        Each(
            reports,
            (file, report) =>
                file.Run(
                    "INSERT INTO store_report(replica, person, waiting, at, seconds_ahead) "
                        + "VALUES($replica, $person, $waiting, $at, $ahead) ON CONFLICT(replica) DO UPDATE SET "
                        + "person=excluded.person, waiting=excluded.waiting, at=excluded.at, "
                        + "seconds_ahead=excluded.seconds_ahead",
                    ("$replica", report.Replica.Value.Bytes()),
                    ("$person", report.Person.Value.Bytes()),
                    ("$waiting", report.Waiting),
                    ("$at", report.At.Milliseconds()),
                    ("$ahead", report.SecondsAhead)
                )
        );

    /// <inheritdoc/>
    public IReadOnlyList<HeldBack> HeldBack() =>
        house.Ask(file =>
            file.List(
                ReadHeldBack,
                "SELECT digest, id, replica, seq, person, at, reason, envelope, salted_body, decision "
                    + "FROM held_back ORDER BY number"
            )
        );

    /// <inheritdoc/>
    public long HeldBackChanges() =>
        house.Ask(file =>
            file.Ask<long>("SELECT count(*) + count(CASE WHEN decision <> 0 THEN 1 END) FROM held_back")
        );

    /// <inheritdoc/>
    public IDisposable TakeTurn() => house.Turn();

    /// <inheritdoc/>
    public void HoldBack(IReadOnlyCollection<HeldBack> entries) =>
        Each(
            entries,
            (file, held) =>
                file.Run(
                    "INSERT INTO held_back(digest, id, replica, seq, person, at, reason, envelope, salted_body, decision) "
                        + "VALUES($digest, $id, $replica, $seq, $person, $at, $reason, $envelope, $body, $decision) "
                        + "ON CONFLICT (digest) DO NOTHING",
                    ("$digest", held.Digest.ToBytes()),
                    ("$id", held.Id.Value.Bytes()),
                    ("$replica", held.Replica.Value.Bytes()),
                    ("$seq", held.Sequence),
                    ("$person", held.Person.Value.Bytes()),
                    ("$at", held.At.Milliseconds()),
                    ("$reason", held.Reason),
                    ("$envelope", held.Bytes.Envelope.ToArray()),
                    ("$body", held.Bytes.SaltedBody.IsEmpty ? null : held.Bytes.SaltedBody.ToArray()),
                    ("$decision", (int)held.Decision)
                )
        );

    /// <inheritdoc/>
    public void Decide(IReadOnlyCollection<Digest> entries, Decision decision) =>
        Each(
            entries,
            (file, digest) =>
                file.Run(
                    "UPDATE held_back SET decision=$decision, envelope=NULL, salted_body=NULL WHERE digest=$digest",
                    ("$digest", digest.ToBytes()),
                    ("$decision", (int)decision)
                )
        );

    /// <inheritdoc/>
    public IReadOnlyList<EntryMark> Marks() =>
        house.Ask(file =>
            file.List(
                row => new EntryMark(
                    DigestOf(row, 0),
                    Replica(row, 1),
                    (MarkSort)row.GetInt32(2),
                    Person(row, 3),
                    row.Moment(4),
                    row.GetInt64(5)
                ),
                "SELECT digest, replica, sort, person, at, seconds FROM entry_mark ORDER BY number"
            )
        );

    /// <inheritdoc/>
    public void Mark(IReadOnlyCollection<EntryMark> marks) =>
        Each(
            marks,
            (file, mark) =>
                file.Run(
                    "INSERT INTO entry_mark(digest, sort, replica, person, at, seconds) "
                        + "VALUES($digest, $sort, $replica, $person, $at, $seconds) ON CONFLICT DO NOTHING",
                    ("$digest", mark.Entry.ToBytes()),
                    ("$sort", (int)mark.Sort),
                    ("$replica", mark.Replica.Value.Bytes()),
                    ("$person", mark.Person.Value.Bytes()),
                    ("$at", mark.At.Milliseconds()),
                    ("$seconds", mark.Seconds)
                )
        );

    /// <inheritdoc/>
    public IReadOnlyList<Refusal> Refusals() =>
        house.Ask(file =>
            file.List(
                row => new Refusal(
                    row.Moment(0),
                    Person(row, 1),
                    row.GetString(2),
                    row.GetString(3),
                    row.GetString(4)
                ),
                "SELECT at, person, name, code, details FROM refusal ORDER BY number"
            )
        );

    /// <inheritdoc/>
    public void Log(Refusal refusal) =>
        house.Change(file =>
        {
            file.Run(
                "INSERT INTO refusal(at, person, name, code, details) VALUES($at, $person, $name, $code, $details)",
                ("$at", refusal.At.Milliseconds()),
                ("$person", refusal.Person.Value.Bytes()),
                ("$name", refusal.Name),
                ("$code", refusal.Code),
                ("$details", refusal.Details)
            );
            return file.Run(
                "DELETE FROM refusal WHERE number <= (SELECT max(number) FROM refusal) - $kept",
                ("$kept", Refusal.MostKept)
            );
        });

    private void Each<T>(IReadOnlyCollection<T> all, Func<SharedTables, T, int> change)
    {
        if (all.Count > 0)
        {
            house.Change(file => all.Sum(one => change(file, one)));
        }
    }

    private static HeldBack ReadHeldBack(DbDataReader row) =>
        new(
            DigestOf(row, 0),
            new EntryId(row.Id(1)),
            Replica(row, 2),
            row.GetInt64(3),
            Person(row, 4),
            row.Moment(5),
            row.GetString(6),
            row.IsDBNull(7)
                ? default
                : new EntryBytes(
                    row.GetFieldValue<byte[]>(7),
                    row.IsDBNull(8) ? default : row.GetFieldValue<byte[]>(8)
                ),
            (Decision)row.GetInt32(9)
        );

    private static ReplicaId Replica(DbDataReader row, int column) => new(row.Id(column));

    private static PersonId Person(DbDataReader row, int column) => new(row.Id(column));

    private static Digest DigestOf(DbDataReader row, int column) =>
        Digest.FromBytes(row.GetFieldValue<byte[]>(column));
}
