using System.Data.Common;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>The calendar address of a person.</summary>
/// <param name="Person">Whose.</param>
/// <param name="Made">When the address was made.</param>
/// <param name="Zone">The zone that its days are told in, as IANA names it.</param>
/// <param name="Manner">How numbers and hours are written; what it means is known to the door that writes them.</param>
public sealed record CalendarAddress(PersonId Person, Instant Made, string Zone, string Manner);

/// <summary>
/// The secret addresses of calendars, one a person at most. A secret is kept as its hash and found by it, so a guess
/// is never compared with the real one, letter by letter.
/// </summary>
/// <param name="house">Where they are kept.</param>
public sealed class HouseCalendars(HouseStore house)
{
    private const string Columns = "person, made, zone, manner";

    /// <summary>Keeps a new address; the one before, if there was one, opens nothing any more.</summary>
    public void Put(CalendarAddress address, ReadOnlySpan<byte> secretHash)
    {
        ArgumentNullException.ThrowIfNull(address);
        var hash = secretHash.ToArray();
        house.Change(file =>
            file.Run(
                "INSERT INTO calendar(person, secret_hash, made, zone, manner) "
                    + "VALUES($person, $hash, $made, $zone, $manner) "
                    + "ON CONFLICT(person) DO UPDATE SET secret_hash=excluded.secret_hash, made=excluded.made, "
                    + "zone=excluded.zone, manner=excluded.manner",
                ("$person", address.Person.Value.Bytes()),
                ("$hash", hash),
                ("$made", address.Made.Milliseconds()),
                ("$zone", address.Zone),
                ("$manner", address.Manner)
            )
        );
    }

    /// <summary>The address of a person; none where there is none.</summary>
    public CalendarAddress? Of(PersonId person) =>
        house.Ask(file =>
            file.List(
                Read,
                $"SELECT {Columns} FROM calendar WHERE person=$person",
                ("$person", person.Value.Bytes())
            )
                is [var address]
                ? address
                : null
        );

    /// <summary>The address of a secret; none where it opens nothing, or its person was let out.</summary>
    public CalendarAddress? Find(ReadOnlySpan<byte> secretHash)
    {
        var hash = secretHash.ToArray();
        return house.Ask(file =>
            file.List(
                Read,
                $"SELECT {Columns} FROM calendar WHERE secret_hash=$hash AND NOT EXISTS "
                    + "(SELECT 1 FROM person WHERE person.id=calendar.person AND person.removed IS NOT NULL)",
                ("$hash", hash)
            )
                is [var address]
                ? address
                : null
        );
    }

    /// <summary>Switches the address of a person off. False where there was none.</summary>
    public bool Remove(PersonId person) =>
        house.Change(file =>
            file.Run("DELETE FROM calendar WHERE person=$person", ("$person", person.Value.Bytes())) == 1
        );

    private static CalendarAddress Read(DbDataReader row) =>
        new(new PersonId(row.Id(0)), row.Moment(1), row.GetString(2), row.GetString(3));
}
