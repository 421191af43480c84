using System.Buffers.Binary;
using System.Data.Common;
using System.Security.Cryptography;
using System.Text;

namespace Broodtide.Storage.Moving;

/// <summary>A table that is carried from one database to another, with the columns that both have.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Columns">Its columns, in the order of the source.</param>
internal sealed record MovedTable(string Name, IReadOnlyList<string> Columns)
{
    /// <summary>The columns as they stand in a statement; names come from our own schema.</summary>
    public string List => string.Join(", ", Columns.Select(column => $"\"{column}\""));
}

/// <summary>How many rows a table has and what they say together, whatever their order.</summary>
internal sealed class TableSum
{
    private readonly byte[] _together = new byte[SHA256.HashSizeInBytes];

    /// <summary>How many rows.</summary>
    public long Rows { get; private set; }

    /// <summary>Takes one row in. Rows of a table differ in their key, so none of them cancels another.</summary>
    public void Add(object?[] row)
    {
        using var bytes = new MemoryStream();
        Span<byte> eight = stackalloc byte[sizeof(long)];
        foreach (var value in row)
        {
            switch (value)
            {
                case null:
                    bytes.WriteByte(0);
                    break;
                case long number:
                    bytes.WriteByte(1);
                    BinaryPrimitives.WriteInt64BigEndian(eight, number);
                    bytes.Write(eight);
                    break;
                case double number:
                    bytes.WriteByte(2);
                    BinaryPrimitives.WriteDoubleBigEndian(eight, number);
                    bytes.Write(eight);
                    break;
                default:
                    var told = value is string text ? Encoding.UTF8.GetBytes(text) : (byte[])value;
                    bytes.WriteByte(value is string ? (byte)3 : (byte)4);
                    BinaryPrimitives.WriteInt64BigEndian(eight, told.Length);
                    bytes.Write(eight);
                    bytes.Write(told);
                    break;
            }
        }

        var hash = SHA256.HashData(bytes.GetBuffer().AsSpan(0, (int)bytes.Length));
        for (var i = 0; i < hash.Length; i++)
        {
            _together[i] ^= hash[i];
        }

        Rows++;
    }

    /// <summary>Whether another table says the same.</summary>
    public bool IsSame(TableSum other) =>
        Rows == other.Rows && _together.AsSpan().SequenceEqual(other._together);
}

/// <summary>Rows as they are carried: none, a whole number, a number, a text or bytes.</summary>
internal static class TableRows
{
    /// <summary>Every row of a table, one at a time, added to a sum.</summary>
    public static IEnumerable<object?[]> Read(DbConnection connection, MovedTable table, TableSum sum)
    {
        using var command = connection.CreateCommand();
        // Names come from the schema of a store of ours.
#pragma warning disable CA2100
        command.CommandText =
            $"SELECT {table.List} FROM \"{table.Name}\""
            + (table.Columns.Contains("number") ? " ORDER BY \"number\"" : "");
#pragma warning restore CA2100
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            var row = new object?[rows.FieldCount];
            for (var column = 0; column < row.Length; column++)
            {
                row[column] = rows.GetValue(column) switch
                {
                    DBNull => null,
                    int number => (long)number,
                    var value => value,
                };
            }

            sum.Add(row);
            yield return row;
        }
    }
}
