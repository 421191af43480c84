using Broodtide.Domain.Journal;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>Saved states of folds: free to be thrown away.</summary>
internal static class CheckpointTable
{
    public static List<Checkpoint> All(SqliteConnection connection)
    {
        using var command = connection.Make(
            """
            SELECT fold, version, position, mark_first, mark_second, state
            FROM checkpoint ORDER BY position, fold, version
            """
        );
        using var rows = command.ExecuteReader();
        var found = new List<Checkpoint>();
        while (rows.Read())
        {
            found.Add(
                new(
                    rows.GetString(0),
                    rows.GetInt32(1),
                    rows.GetInt32(2),
                    new(unchecked((ulong)rows.GetInt64(3)), unchecked((ulong)rows.GetInt64(4))),
                    rows.Blob(5)
                )
            );
        }

        return found;
    }

    public static void Keep(SqliteConnection connection, IReadOnlyList<Checkpoint> checkpoints)
    {
        foreach (var fold in checkpoints.Select(checkpoint => checkpoint.Fold).Distinct())
        {
            connection.Run("DELETE FROM checkpoint WHERE fold = $fold", ("$fold", fold));
        }

        foreach (var checkpoint in checkpoints)
        {
            connection.Run(
                """
                INSERT OR REPLACE INTO checkpoint (fold, version, position, mark_first, mark_second, state)
                VALUES ($fold, $version, $position, $first, $second, $state)
                """,
                ("$fold", checkpoint.Fold),
                ("$version", checkpoint.Version),
                ("$position", checkpoint.Position),
                ("$first", unchecked((long)checkpoint.Mark.First)),
                ("$second", unchecked((long)checkpoint.Mark.Second)),
                ("$state", checkpoint.State.ToArray())
            );
        }
    }

    /// <returns>How many there were.</returns>
    public static int Forget(SqliteConnection connection) => connection.Run("DELETE FROM checkpoint");
}
