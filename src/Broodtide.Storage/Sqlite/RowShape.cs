using Broodtide.Domain.Journal;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// Fields of rows that may have been damaged on the disk: what is not of its shape is told as SQLite tells damage that it sees
/// itself.
/// </summary>
internal static class RowShape
{
    private const int IdBytes = 16;

    public static byte[] Blob(this SqliteDataReader row, int column) =>
        row.GetValue(column) as byte[] ?? throw Damaged();

    public static Digest DigestAt(this SqliteDataReader row, int column) => DigestOf(row.Blob(column));

    public static Digest DigestOf(ReadOnlySpan<byte> bytes) =>
        bytes.Length == Digest.Length ? Digest.FromBytes(bytes) : throw Damaged();

    public static Guid IdAt(this SqliteDataReader row, int column) => IdOf(row.Blob(column));

    public static Guid IdOf(byte[] bytes) =>
        bytes.Length == IdBytes ? new Guid(bytes, bigEndian: true) : throw Damaged();

    public static long NumberAt(this SqliteDataReader row, int column) =>
        row.GetValue(column) is long number ? number : throw Damaged();

    public static SqliteException Damaged() => new("a row is not of its shape", raw.SQLITE_CORRUPT);
}
