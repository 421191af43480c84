using System.Data.Common;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>A way in that was given away and waits to be used, once.</summary>
/// <param name="Id">Which one; may be shown, opens nothing.</param>
/// <param name="Role">What the person who comes by it may do.</param>
/// <param name="For">The person who gets a new passphrase by it; none where it lets in somebody new.</param>
/// <param name="Made">When it was made.</param>
/// <param name="Expires">From when it opens nothing any more.</param>
public sealed record Invitation(Guid Id, Role Role, PersonId? For, Instant Made, Instant Expires);

/// <summary>What became of an invitation that somebody wanted to use.</summary>
public enum Acceptance
{
    /// <summary>The person is in.</summary>
    Accepted,

    /// <summary>No such code, or it was used, withdrawn or is too old: they are not told apart.</summary>
    NoSuchCode,

    /// <summary>The name belongs to somebody else; the code can still be used.</summary>
    NameTaken,
}

/// <summary>The invitations of the house; their codes are kept as hashes only.</summary>
/// <param name="house">Where they are kept.</param>
public sealed class HouseInvitations(HouseStore house)
{
    private const string Columns = "id, role, person, made, expires";
    private const string Open = "used IS NULL AND withdrawn IS NULL AND expires > $now";

    private static readonly Duration Forgotten = Duration.FromDays(180);

    /// <summary>Keeps an invitation. A new one for a person replaces that person's older ones.</summary>
    public void Add(Invitation invitation, ReadOnlySpan<byte> codeHash)
    {
        var hash = codeHash.ToArray();
        house.Change(file =>
        {
            file.Run(
                "DELETE FROM invitation WHERE expires < $before",
                ("$before", (invitation.Made - Forgotten).Milliseconds())
            );
            file.Run(
                "UPDATE invitation SET withdrawn=$at WHERE person=$person AND used IS NULL AND withdrawn IS NULL",
                ("$at", invitation.Made.Milliseconds()),
                ("$person", invitation.For?.Value.Bytes())
            );
            return file.Run(
                "INSERT INTO invitation(id, code_hash, role, person, made, expires) "
                    + "VALUES($id, $hash, $role, $person, $made, $expires)",
                ("$id", invitation.Id.Bytes()),
                ("$hash", hash),
                ("$role", invitation.Role.Code()),
                ("$person", invitation.For?.Value.Bytes()),
                ("$made", invitation.Made.Milliseconds()),
                ("$expires", invitation.Expires.Milliseconds())
            );
        });
    }

    /// <summary>The invitations that can still be used.</summary>
    public IReadOnlyList<Invitation> Waiting(Instant now) =>
        house.Ask(file =>
            file.List(
                Read,
                $"SELECT {Columns} FROM invitation WHERE {Open} ORDER BY made, id",
                ("$now", now.Milliseconds())
            )
        );

    /// <summary>The invitation of a code, if it can still be used.</summary>
    public Invitation? Find(ReadOnlySpan<byte> codeHash, Instant now)
    {
        var hash = codeHash.ToArray();
        return house.Ask(file => Find(file, hash, now));
    }

    /// <summary>Takes an invitation back. False where there is none that could be used.</summary>
    public bool Withdraw(Guid id, Instant now) =>
        house.Change(file =>
            file.Run(
                $"UPDATE invitation SET withdrawn=$now WHERE id=$id AND {Open}",
                ("$now", now.Milliseconds()),
                ("$id", id.Bytes())
            ) == 1
        );

    /// <summary>
    /// Uses an invitation: makes the person, or gives the person it is for another passphrase, in the house again if
    /// let out before, and ends all sessions that person had. All of it or nothing.
    /// </summary>
    /// <param name="codeHash">Of the code.</param>
    /// <param name="newcomer">The person to be made; for a person who is there, only the hash is taken.</param>
    /// <param name="now">When.</param>
    public (Acceptance How, Person? Person) Accept(ReadOnlySpan<byte> codeHash, Person newcomer, Instant now)
    {
        var hash = codeHash.ToArray();
        return house.Change<(Acceptance, Person?)>(file =>
        {
            if (Find(file, hash, now) is not { } invitation)
            {
                return (Acceptance.NoSuchCode, null);
            }

            PersonId person;
            if (invitation.For is { } known)
            {
                person = known;
                Renew(file, known, invitation.Role, newcomer.PassphraseHash, now);
            }
            else if (HousePeople.Named(file, newcomer.Name) is not null)
            {
                return (Acceptance.NameTaken, null);
            }
            else
            {
                person = newcomer.Id;
                HousePeople.Add(file, newcomer with { Role = invitation.Role });
            }

            file.Run(
                "UPDATE invitation SET used=$now WHERE id=$id",
                ("$now", now.Milliseconds()),
                ("$id", invitation.Id.Bytes())
            );
            return (Acceptance.Accepted, HousePeople.Find(file, person));
        });
    }

    private static void Renew(SharedTables file, PersonId person, Role role, string? hash, Instant now)
    {
        // A role that was changed since the code was made holds; one who was let out comes with the code's.
        file.Run(
            "UPDATE person SET passphrase=$hash, removed=NULL, "
                + "role=CASE WHEN removed IS NULL THEN role ELSE $role END WHERE id=$id",
            ("$hash", hash),
            ("$role", role.Code()),
            ("$id", person.Value.Bytes())
        );
        HouseSessions.RevokeAll(file, person, null, now);
    }

    private static Invitation? Find(SharedTables file, byte[] hash, Instant now) =>
        file.List(
            Read,
            $"SELECT {Columns} FROM invitation WHERE code_hash=$hash AND {Open}",
            ("$hash", hash),
            ("$now", now.Milliseconds())
        )
            is [var found]
            ? found
            : null;

    private static Invitation Read(DbDataReader row) =>
        new(
            row.Id(0),
            RoleCodes.Parse(row.GetString(1)) ?? Role.Reader,
            row.IdOrNone(2) is { } person ? new PersonId(person) : null,
            row.Moment(3),
            row.Moment(4)
        );
}
