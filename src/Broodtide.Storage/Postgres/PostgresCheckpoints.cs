using Broodtide.Domain.Journal;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>Saved states of folds: free to be thrown away.</summary>
internal static class PostgresCheckpoints
{
    public static List<Checkpoint> All(NpgsqlConnection connection) =>
        connection.List(
            row => new Checkpoint(
                row.GetString(0),
                row.GetInt32(1),
                row.GetInt32(2),
                new(unchecked((ulong)row.GetInt64(3)), unchecked((ulong)row.GetInt64(4))),
                row.GetFieldValue<byte[]>(5)
            ),
            """
            SELECT fold, version, position, mark_first, mark_second, state
            FROM checkpoint ORDER BY position, fold, version
            """
        );

    public static bool Keep(NpgsqlConnection connection, IReadOnlyList<Checkpoint> checkpoints)
    {
        connection.Run(
            "DELETE FROM checkpoint WHERE fold = ANY(@folds)",
            ("folds", checkpoints.Select(checkpoint => checkpoint.Fold).Distinct().ToArray())
        );
        foreach (var checkpoint in checkpoints)
        {
            connection.Run(
                """
                INSERT INTO checkpoint (fold, version, position, mark_first, mark_second, state)
                VALUES (@fold, @version, @position, @first, @second, @state)
                ON CONFLICT (fold, version, position) DO UPDATE
                SET mark_first = excluded.mark_first, mark_second = excluded.mark_second, state = excluded.state
                """,
                ("fold", checkpoint.Fold),
                ("version", checkpoint.Version),
                ("position", checkpoint.Position),
                ("first", unchecked((long)checkpoint.Mark.First)),
                ("second", unchecked((long)checkpoint.Mark.Second)),
                ("state", checkpoint.State.ToArray())
            );
        }

        return true;
    }

    /// <returns>How many there were.</returns>
    public static int Forget(NpgsqlConnection connection) => connection.Run("DELETE FROM checkpoint");
}
