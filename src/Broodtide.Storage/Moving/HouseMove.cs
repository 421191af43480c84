using System.Globalization;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Broodtide.Storage.Moving;

/// <summary>What was carried.</summary>
/// <param name="Entries">Entries of the journal.</param>
/// <param name="Rows">Rows of everything else.</param>
/// <param name="Photos">Photos.</param>
public sealed record Moved(long Entries, long Rows, int Photos);

/// <summary>
/// Carries a whole house (journal, people, sharing, readings, photos, keys) from files into a database and back: into
/// an empty place only, all of it or nothing, and read back and compared before it counts. What it was carried from
/// stays as it is. The copy begins a life of its own and writes as new replicas, so that both may be used by mistake
/// without two entries under one number.
/// </summary>
public static class HouseMove
{
    // Made by a server at its start, before anybody came.
    private static readonly string[] MayBeThere = ["own_store"];

    /// <summary>Carries the files of a folder into a database.</summary>
    /// <exception cref="StoreUnusableException">The source is damaged, the database is not empty, or either failed; nothing was changed.</exception>
    public static Moved IntoDatabase(string folder, PostgresStore store)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        ArgumentNullException.ThrowIfNull(store);
        return Guarded(
            folder,
            () =>
            {
                using var source = SqliteSide.Open(folder, isMade: false);
                if (source.Tables.Count == 0)
                {
                    throw Refusal("house-none", folder);
                }

                RequireWhole(source.Journal);
                var photos = PhotoFolder.Beside(source.Journal);
                var keys = KeysIn(folder).ToList();
                return store.Write(connection =>
                {
                    RequireEmpty(
                        connection,
                        store,
                        [.. source.Tables.Select(one => one.Table.Name), "photo"]
                    );
                    var moved = new Moved(0, 0, 0);
                    foreach (var (from, table) in source.Tables)
                    {
                        var (read, written) = (new TableSum(), new TableSum());
                        PostgresSide.Prepare(connection, from, table);
                        PostgresSide.Write(connection, table, TableRows.Read(from, table, read));
                        Exhaust(TableRows.Read(connection, table, written));
                        RequireSame(store.Name, table, read, written);
                        moved = Counted(moved, table, read);
                    }

                    foreach (var hash in photos.All())
                    {
                        var read = photos.Read(hash)!;
                        var bytes = read.Succeeded
                            ? read.Value
                            : throw new StoreUnusableException(read.Reason);
                        connection.Run(
                            "INSERT INTO photo (sha256, bytes) VALUES (@hash, @bytes)",
                            ("hash", hash),
                            ("bytes", bytes)
                        );
                        moved = moved with { Photos = moved.Photos + 1 };
                    }

                    foreach (var (name, text) in keys)
                    {
                        connection.Run(
                            "INSERT INTO server_key (name, element) VALUES (@name, @text) ON CONFLICT DO NOTHING",
                            ("name", name),
                            ("text", text)
                        );
                    }

                    PostgresSide.Finish(connection);
                    return moved;
                });
            }
        );
    }

    /// <summary>Carries a database into files of a folder that is not there yet, or is empty.</summary>
    /// <exception cref="StoreUnusableException">The folder is not empty, or either side failed; nothing was changed.</exception>
    public static Moved IntoFiles(PostgresStore store, string folder)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        var target = Path.GetFullPath(folder);
        if (
            File.Exists(target)
            || (Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any())
        )
        {
            throw Refusal("store-not-empty", target);
        }

        return Guarded(
            target,
            () =>
            {
                // Beside it first: the folder gets its name once all of it is on the disk.
                var coming = $"{target}.coming-{Guid.NewGuid():N}";
                Directory.CreateDirectory(coming);
                try
                {
                    var moved = store.Snapshot(connection => Write(connection, store, coming));
                    if (Directory.Exists(target))
                    {
                        Directory.Delete(target);
                    }

                    Disk.SyncFolder(coming);
                    Directory.Move(coming, target);
                    Disk.SyncFolder(Disk.FolderOf(target));
                    return moved;
                }
                catch
                {
                    Directory.Delete(coming, recursive: true);
                    throw;
                }
            }
        );
    }

    private static Moved Write(NpgsqlConnection connection, PostgresStore store, string folder)
    {
        var moved = new Moved(0, 0, 0);
        using (var target = SqliteSide.Open(folder, isMade: true))
        {
            foreach (var (to, table) in target.Tables)
            {
                var (read, written) = (new TableSum(), new TableSum());
                Insert(to, table, TableRows.Read(connection, table, read));
                Exhaust(TableRows.Read(to, table, written));
                RequireSame(folder, table, read, written);
                moved = Counted(moved, table, read);
            }

            target.Keep();
            var photos = PhotoFolder.Beside(target.Journal);
            var shelf = new PostgresPhotos(store);
            foreach (var hash in connection.List(row => row.GetString(0), "SELECT sha256 FROM photo"))
            {
                var read = shelf.Read(hash) ?? throw Refusal("store-away", store.Name);
                photos.Put(read.Succeeded ? read.Value : throw new StoreUnusableException(read.Reason));
                moved = moved with { Photos = moved.Photos + 1 };
            }
        }

        var keys = connection.List(
            row => (Name: row.GetString(0), Text: row.GetString(1)),
            "SELECT name, element FROM server_key ORDER BY name"
        );
        if (keys.Count > 0)
        {
            KeyFiles.Write(Path.Combine(folder, KeyFiles.Folder), keys);
        }

        return moved;
    }

    private static void Insert(SqliteConnection connection, MovedTable table, IEnumerable<object?[]> rows)
    {
        using var insert = connection.CreateCommand();
#pragma warning disable CA2100
        insert.CommandText =
            $"INSERT INTO \"{table.Name}\"({table.List}) VALUES("
            + string.Join(
                ", ",
                table.Columns.Select((_, at) => $"${at.ToString(CultureInfo.InvariantCulture)}")
            )
            + ")";
#pragma warning restore CA2100
        for (var column = 0; column < table.Columns.Count; column++)
        {
            insert.Parameters.AddWithValue($"${column.ToString(CultureInfo.InvariantCulture)}", DBNull.Value);
        }

        foreach (var row in rows)
        {
            for (var column = 0; column < row.Length; column++)
            {
                insert.Parameters[column].Value = row[column] ?? DBNull.Value;
            }

            insert.ExecuteNonQuery();
        }
    }

    private static IEnumerable<(string Name, string Text)> KeysIn(string folder) =>
        KeyFiles.Read(Path.Combine(folder, KeyFiles.Folder));

    private static Moved Counted(Moved moved, MovedTable table, TableSum sum) =>
        table.Name == "entry"
            ? moved with
            {
                Entries = moved.Entries + sum.Rows,
            }
            : moved with
            {
                Rows = moved.Rows + sum.Rows,
            };

    private static void RequireEmpty(
        NpgsqlConnection connection,
        PostgresStore store,
        IEnumerable<string> tables
    )
    {
        foreach (var table in tables.Except(MayBeThere))
        {
            // Names come from the schema of a store of ours.
            if (connection.Ask<bool>($"SELECT EXISTS (SELECT 1 FROM \"{table}\")"))
            {
                throw Refusal("store-not-empty", store.Name);
            }
        }
    }

    // Two numbers of one replica, or a chain that does not hold, were kept on purpose and are carried as they are.
    private static void RequireWhole(string journal)
    {
        var (faults, _) = StoreCopy.Check(journal, isJournal: true, CancellationToken.None);
        if (faults.FirstOrDefault(fault => !StoreCheck.IsKeptOnPurpose(fault)) is { } fault)
        {
            throw new StoreUnusableException(
                new Remark("store-damaged", new("file", journal), new("reason", fault.ToString()))
            );
        }
    }

    private static void RequireSame(string name, MovedTable table, TableSum read, TableSum written)
    {
        if (!read.IsSame(written))
        {
            throw new StoreUnusableException(
                new Remark("store-move-differs", new("file", name), new("table", table.Name))
            );
        }
    }

    private static void Exhaust(IEnumerable<object?[]> rows)
    {
        foreach (var _ in rows)
        {
            // Only their sum is wanted.
        }
    }

    private static T Guarded<T>(string folder, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException failure)
        {
            throw StoreFailure.Of(folder, failure);
        }
    }

    private static StoreUnusableException Refusal(string code, string place) =>
        new(new Remark(code, new Argument("file", place)));
}
