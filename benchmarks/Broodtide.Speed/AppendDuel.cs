using System.Diagnostics;
using System.Globalization;
using System.Text;
using Broodtide.Benchmarks;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;

namespace Broodtide.Speed;

/// <summary>
/// One entry at a time until it is on the disk: our journal, which seals each, asks where its chain ends and moves its mark
/// on, against the same rows put into the same tables with the same settings by bare Microsoft.Data.Sqlite and by SQLite's
/// own shell.
/// </summary>
internal static class AppendDuel
{
    // Until the runtime has compiled what is called often.
    private const int Warm = 6000;

    private const string Settings = """
        PRAGMA journal_mode=WAL;
        PRAGMA synchronous=FULL;
        PRAGMA secure_delete=ON;
        """;

    private const string Tables = """
        CREATE TABLE entry (
            number INTEGER PRIMARY KEY, digest BLOB NOT NULL UNIQUE, id BLOB NOT NULL, replica BLOB NOT NULL,
            seq INTEGER NOT NULL, envelope BLOB NOT NULL, salted_body BLOB NULL) STRICT;
        CREATE INDEX entry_by_id ON entry (id);
        CREATE INDEX entry_by_seq ON entry (replica, seq);
        """;

    private const string Insert =
        "INSERT INTO entry (digest, id, replica, seq, envelope, salted_body) VALUES ($digest, $id, $replica, $seq, $envelope, $body)";

    public static void Run(int entries, int rounds)
    {
        Told.Title($"APPEND: {entries} entries, each in a transaction of its own and on the disk");
        var folder = Directory.CreateTempSubdirectory("broodtide-speed-").FullName;
        try
        {
            var drafts = Invented
                .Drafts(entries * (rounds + 1) + Warm)
                .Select(written => written.Draft)
                .ToArray();
            var replica = new ReplicaId(Guid.NewGuid());
            var rows = Sealed(drafts, replica);
            using var bare = Bare(Path.Combine(folder, "bare.db"));
            using var insert = Command(bare);
            var shellFile = Path.Combine(folder, "shell.db");
            Shell(shellFile, Settings + Tables);
            var ours = SqliteJournal
                .OpenAsync(Path.Combine(folder, "ours.db"), "speed")
                .GetAwaiter()
                .GetResult();
            var (mine, theirs, shells, round) = (0, 0, 0, 0);
            var script = "";
            for (; mine < Warm; mine++)
            {
                ours.AppendAsync([drafts[mine]]).AsTask().GetAwaiter().GetResult();
            }

            var took = Duel.Run(
                "append",
                rounds,
                new Runner(
                    "ours",
                    () =>
                    {
                        for (var i = 0; i < entries; i++)
                        {
                            ours.AppendAsync([drafts[mine++]]).AsTask().GetAwaiter().GetResult();
                        }
                    }
                ),
                new Runner(
                    "bare Microsoft.Data.Sqlite, statement prepared",
                    () =>
                    {
                        for (var i = 0; i < entries; i++)
                        {
                            Put(insert, rows[theirs++]);
                        }
                    }
                ),
                new Runner(
                    "SQLite's shell, its start taken with it",
                    () => Shell(shellFile, script),
                    () =>
                    {
                        script = Script(rows.AsSpan(shells, entries));
                        shells += entries;
                    }
                ),
                new Runner(
                    "a page of 4096 bytes written and synced, so many times",
                    () => Pages(Path.Combine(folder, $"pages-{round++}"), entries)
                )
            );
            Told.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  an entry: ours {1000 * took[0] / entries:F0} us, bare {1000 * took[1] / entries:F0} us, shell {1000 * took[2] / entries:F0} us; ours takes {took[0] / took[1]:F2} times the bare (aim 1.2)"
                )
            );
            ours.DisposeAsync().AsTask().GetAwaiter().GetResult();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static Entry[] Sealed(Draft[] drafts, ReplicaId replica)
    {
        var salt = new byte[EntryBytes.SaltLength];
        Digest? previous = null;
        var rows = new Entry[drafts.Length];
        for (var i = 0; i < rows.Length; i++)
        {
            Random.Shared.NextBytes(salt);
            rows[i] = drafts[i].Seal(replica, i + 1, previous, salt);
            previous = rows[i].Digest;
        }

        return rows;
    }

    private static SqliteConnection Bare(string path)
    {
        var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        foreach (var text in new[] { Settings, Tables })
        {
            using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Constants of this file.
            command.CommandText = text;
#pragma warning restore CA2100
            command.ExecuteNonQuery();
        }

        return connection;
    }

    private static SqliteCommand Command(SqliteConnection connection)
    {
        var command = connection.CreateCommand();
        command.CommandText = Insert;
        foreach (var name in new[] { "$digest", "$id", "$replica", "$seq", "$envelope", "$body" })
        {
            command.Parameters.Add(new SqliteParameter(name, null));
        }

        return command;
    }

    private static void Put(SqliteCommand insert, Entry entry)
    {
        var values = insert.Parameters;
        values[0].Value = entry.Digest.ToBytes();
        values[1].Value = entry.Id.Value.ToByteArray(bigEndian: true);
        values[2].Value = entry.Envelope.Replica.Value.ToByteArray(bigEndian: true);
        values[3].Value = entry.Envelope.Sequence;
        values[4].Value = entry.Bytes.Envelope.ToArray();
        values[5].Value = entry.Bytes.SaltedBody.ToArray();
        insert.ExecuteNonQuery();
    }

    private static string Script(ReadOnlySpan<Entry> rows)
    {
        var text = new StringBuilder("PRAGMA synchronous=FULL;\nPRAGMA secure_delete=ON;\n");
        foreach (var entry in rows)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"INSERT INTO entry (digest, id, replica, seq, envelope, salted_body) VALUES (x'{Convert.ToHexString(entry.Digest.ToBytes())}', x'{entry.Id.Value:N}', x'{entry.Envelope.Replica.Value:N}', {entry.Envelope.Sequence}, x'{Convert.ToHexString(entry.Bytes.Envelope.Span)}', x'{Convert.ToHexString(entry.Bytes.SaltedBody.Span)}');\n"
            );
        }

        return text.ToString();
    }

    internal static void Shell(string file, string script)
    {
        using var process = Process.Start(
            new ProcessStartInfo("sqlite3")
            {
                ArgumentList = { "-batch", "-bail", file },
                RedirectStandardInput = true,
                RedirectStandardOutput = true,
                UseShellExecute = false,
            }
        )!;
        process.StandardInput.Write(script);
        process.StandardInput.Close();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"SQLite's shell ended with {process.ExitCode}.");
        }
    }

    private static void Pages(string path, int count)
    {
        using var stream = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None, 1);
        var page = new byte[4096];
        for (var i = 0; i < count; i++)
        {
            stream.Write(page);
            stream.Flush(flushToDisk: true);
        }
    }
}
