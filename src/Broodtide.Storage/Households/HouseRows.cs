using System.Data.Common;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>How ids and instants stand in the tables of the house: sixteen bytes, milliseconds since 1970 UTC.</summary>
internal static class HouseRows
{
    public static byte[] Bytes(this Guid id) => id.ToByteArray(bigEndian: true);

    public static long Milliseconds(this Instant instant) => instant.ToUnixTimeMilliseconds();

    public static Guid Id(this DbDataReader row, int column) =>
        new(row.GetFieldValue<byte[]>(column), bigEndian: true);

    public static Guid? IdOrNone(this DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.Id(column);

    public static Instant Moment(this DbDataReader row, int column) =>
        Instant.FromUnixTimeMilliseconds(row.GetInt64(column));

    public static Instant? MomentOrNone(this DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.Moment(column);
}
