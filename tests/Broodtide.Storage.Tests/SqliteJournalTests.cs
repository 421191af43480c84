using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Tests;

public sealed class SqliteJournalTests : IDisposable
{
    private readonly Folder _folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task What_was_written_is_there_after_closing()
    {
        var path = _folder["journal.db"];
        IReadOnlyList<Entry> written;
        await using (var journal = await SqliteJournal.OpenAsync(path, "cli", Stop))
        {
            written = await journal.AppendAsync([Samples.Note("Grüße, 抱卵"), Samples.Note("b")], Stop);
        }

        await using var again = await SqliteJournal.OpenAsync(path, "cli", Stop);
        Assert.Equal(written[0].Envelope.Replica, again.Replica);
        Assert.Equal(Samples.Shape(written), Samples.Shape(await again.ReadAllAsync(Stop)));
        Assert.Equal(3, (await again.AppendAsync([Samples.Note("c")], Stop))[0].Envelope.Sequence);
        Assert.Empty(await again.VerifyAsync(Stop));
    }

    [Fact]
    public async Task Each_door_is_a_replica_of_its_own_and_both_write_at_once()
    {
        var path = _folder["journal.db"];
        await using var server = await SqliteJournal.OpenAsync(path, "server", Stop);
        await using var line = await SqliteJournal.OpenAsync(path, "cli", Stop);
        await using var secondLine = await SqliteJournal.OpenAsync(path, "cli", Stop);
        Assert.NotEqual(server.Replica, line.Replica);
        Assert.Equal(line.Replica, secondLine.Replica);
        await Task.WhenAll(
            new[] { server, line, secondLine }.Select(journal =>
                Task.Run(
                    async () =>
                    {
                        for (var i = 0; i < 40; i++)
                        {
                            await journal.AppendAsync([Samples.Note($"{i}"), Samples.Note($"{i}'")], Stop);
                        }
                    },
                    Stop
                )
            )
        );
        Assert.Equal(240, (await server.ReadAllAsync(Stop)).Count);
        Assert.Empty(await server.VerifyAsync(Stop));
    }

    [Fact]
    public async Task A_copied_store_writes_as_a_new_replica_and_the_original_goes_on()
    {
        var path = _folder["journal.db"];
        var first = await WriteAsync(path, "a");
        File.Copy(path, _folder["copy.db"]);
        File.Copy(LifeMark.PathOf(path), LifeMark.PathOf(_folder["copy.db"]));
        var ofCopy = await WriteAsync(_folder["copy.db"], "b");
        Assert.NotEqual(first.Envelope.Replica, ofCopy.Envelope.Replica);
        Assert.Equal(1, ofCopy.Envelope.Sequence);
        var second = await WriteAsync(path, "c");
        Assert.Equal(first.Envelope.Replica, second.Envelope.Replica);
        Assert.Equal(2, second.Envelope.Sequence);
    }

    [Fact]
    public async Task A_store_put_back_over_itself_writes_as_a_new_replica()
    {
        var path = _folder["journal.db"];
        var first = await WriteAsync(path, "a");
        var backup = await File.ReadAllBytesAsync(path, Stop);
        await WriteAsync(path, "lost");
        // Over the same file: place, inode and time of birth stay.
        await File.WriteAllBytesAsync(path, backup, Stop);
        var next = await WriteAsync(path, "b");
        Assert.NotEqual(first.Envelope.Replica, next.Envelope.Replica);
    }

    [Fact]
    public async Task A_renamed_store_goes_on_where_the_file_system_knows_it()
    {
        var path = _folder["journal.db"];
        var first = await WriteAsync(path, "a");
        if (!Disk.IdentityOf(path).Contains("-born-", StringComparison.Ordinal))
        {
            Assert.Skip("This file system keeps no time of birth, so a renamed store begins a new life.");
        }

        File.Move(path, _folder["renamed.db"]);
        File.Move(LifeMark.PathOf(path), LifeMark.PathOf(_folder["renamed.db"]));
        var next = await WriteAsync(_folder["renamed.db"], "b");
        Assert.Equal(first.Envelope.Replica, next.Envelope.Replica);
        Assert.Equal(2, next.Envelope.Sequence);
    }

    [Theory]
    [InlineData("")]
    [InlineData("nonsense")]
    [InlineData(null)]
    public async Task A_store_without_a_whole_mark_writes_as_a_new_replica(string? mark)
    {
        var path = _folder["journal.db"];
        var first = await WriteAsync(path, "a");
        File.Delete(LifeMark.PathOf(path));
        if (mark is not null)
        {
            await File.WriteAllTextAsync(LifeMark.PathOf(path), mark, Stop);
        }

        var next = await WriteAsync(path, "b");
        Assert.NotEqual(first.Envelope.Replica, next.Envelope.Replica);
        // Whole again: it goes on as that one.
        Assert.Equal(next.Envelope.Replica, (await WriteAsync(path, "c")).Envelope.Replica);
    }

    [Fact]
    public async Task Erased_facts_are_in_no_file_any_more()
    {
        var path = _folder["journal.db"];
        await using var journal = await SqliteJournal.OpenAsync(path, "cli", Stop);
        var secret = (await journal.AppendAsync([Samples.Note("unmistakable-secret")], Stop))[0];
        // Numbers that came of it, kept for the next opening.
        await journal.KeepAsync(
            [new Checkpoint("ledger", 1, 1, new(1, 2), "what-came-of-the-secret"u8.ToArray())],
            Stop
        );
        Assert.True(Anywhere("unmistakable-secret"));
        Assert.True(Anywhere("what-came-of-the-secret"));
        await journal.AppendAsync([Samples.Erasure(secret.Id)], Stop);
        Assert.False(Anywhere("unmistakable-secret"));
        Assert.False(Anywhere("what-came-of-the-secret"));
        Assert.Empty(await journal.CheckpointsAsync(Stop));
        Assert.Empty(await journal.VerifyAsync(Stop));
    }

    [Fact]
    public async Task A_foreign_file_is_refused_and_left_as_it_was()
    {
        var path = _folder["notes.txt"];
        await File.WriteAllTextAsync(path, new string('x', 5000), Stop);
        await RefusedAsync(path, "store-foreign");
    }

    [Fact]
    public async Task What_is_whole_in_a_damaged_store_can_be_had_and_a_changed_envelope_is_not_whole()
    {
        var path = _folder["damaged.db"];
        IReadOnlyList<Entry> put;
        await using (var journal = await SqliteJournal.OpenAsync(path, "cli", Stop))
        {
            await journal.AppendAsync(
                [.. Enumerable.Range(0, 30).Select(i => Samples.Note(new string('x', 40 * i), i))],
                Stop
            );
            put = await journal.ReadAllAsync(Stop);
        }

        await using (var other = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            other.Open();
            other.Run(
                "UPDATE entry SET envelope = CAST(replace(CAST(envelope AS TEXT), '\"Ada\"', '\"Ida\"') AS BLOB) WHERE number = 4"
            );
        }

        Assert.Equal(29, StoreSalvage.Read(path, Stop).Count);
        // And its end is lost.
        using (var stream = new FileStream(path, FileMode.Open, FileAccess.ReadWrite))
        {
            stream.SetLength(stream.Length * 2 / 3);
        }

        var saved = StoreSalvage.Read(path, Stop).Select(entry => entry.Digest).ToList();
        Assert.InRange(saved.Count, 5, 28);
        Assert.Subset(put.Select(entry => entry.Digest).ToHashSet(), saved.ToHashSet());
    }

    [Fact]
    public async Task A_row_whose_fields_are_not_of_their_shape_is_damage_and_no_fault_of_the_program()
    {
        var path = _folder["shape.db"];
        await using (var journal = await SqliteJournal.OpenAsync(path, "cli", Stop))
        {
            await journal.AppendAsync([Samples.Note("one"), Samples.Note("two")], Stop);
        }

        await using (var other = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            other.Open();
            // As a changed byte in a row's header has it.
            other.Run("PRAGMA ignore_check_constraints=ON");
            other.Run("UPDATE entry SET digest = x'0102' WHERE number = 2");
        }

        await using var damaged = await SqliteJournal.OpenAsync(path, "cli", Stop);
        Assert.Contains(await damaged.VerifyAsync(Stop), fault => fault.Code == "row-damaged");
        var refused = await Assert.ThrowsAsync<StoreUnusableException>(async () =>
            await damaged.ReadAllAsync(Stop)
        );
        Assert.Equal(("store-damaged", path), (refused.Reason.Code, refused.Reason["file"]));
        Assert.Single(StoreSalvage.Read(path, Stop));
    }

    [Fact]
    public async Task A_store_whose_making_was_broken_off_before_anything_was_in_it_is_made()
    {
        // The disk ran full, or the program ended, between the first page and the tables.
        var path = _folder["begun.db"];
        await using (var begun = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            begun.Open();
            begun.Run("PRAGMA journal_mode=WAL");
        }

        Assert.True(new FileInfo(path).Length > 0);
        await using var journal = await SqliteJournal.OpenAsync(path, "cli", Stop);
        await journal.AppendAsync([Samples.Note("first")], Stop);
        Assert.Single(await journal.ReadAllAsync(Stop));
    }

    [Fact]
    public async Task A_database_of_another_program_is_refused_and_left_as_it_was()
    {
        var path = _folder["other.db"];
        await using (var other = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            other.Open();
            other.Run("CREATE TABLE shopping (item TEXT)");
        }

        await RefusedAsync(path, "store-foreign");
    }

    [Fact]
    public async Task A_newer_store_is_refused_and_left_as_it_was()
    {
        var path = _folder["journal.db"];
        await WriteAsync(path, "a");
        await using (var later = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            later.Open();
            later.Run("PRAGMA user_version=2");
        }

        var reason = await RefusedAsync(path, "store-newer");
        Assert.Equal((2, 1), (reason["version"], reason["allowed"]));
    }

    [Theory]
    [InlineData(50)]
    [InlineData(4096)]
    [InlineData(20_000)]
    public async Task A_store_cut_short_is_refused_and_left_as_it_was(int bytes)
    {
        var path = _folder["journal.db"];
        await WriteAsync(path, "a");
        await using (var stream = File.OpenWrite(path))
        {
            stream.SetLength(bytes);
        }

        await RefusedAsync(path, bytes < 100 ? "store-foreign" : "store-cut-short");
    }

    [Fact]
    public async Task Damage_inside_is_told_and_not_taken_for_entries()
    {
        var path = _folder["journal.db"];
        await using (var journal = await SqliteJournal.OpenAsync(path, "cli", Stop))
        {
            await journal.AppendAsync(
                [.. Enumerable.Range(0, 200).Select(i => Samples.Note($"note {i}"))],
                Stop
            );
        }

        var bytes = await File.ReadAllBytesAsync(path, Stop);
        var place = bytes.AsSpan().IndexOf("note 77"u8);
        bytes[place + 5] = (byte)'8';
        await File.WriteAllBytesAsync(path, bytes, Stop);
        await using var again = await SqliteJournal.OpenAsync(path, "cli", Stop);
        var fault = Assert.Single(await again.VerifyAsync(Stop));
        Assert.Equal("row-damaged", fault.Code);
        Assert.Contains(
            "body-not-the-one-vouched-for",
            fault["reason"]!.ToString()!,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_store_that_cannot_be_made_durable_is_refused()
    {
        // In memory there is no write-ahead log; SQLite answers with another mode and no error.
        using var connection = new SqliteConnection("Data Source=:memory:");
        connection.Open();
        var refused = Assert.Throws<StoreUnusableException>(() => StoreSettings.Apply(connection, "memory"));
        Assert.Equal("store-not-durable", refused.Reason.Code);
        Assert.Equal("journal_mode", refused.Reason["setting"]);
    }

    [Fact]
    public async Task Both_settings_hold_on_every_opening()
    {
        var path = _folder["journal.db"];
        for (var i = 0; i < 2; i++)
        {
            var (mode, level) = ("", 0L);
            await using var journal = await SqliteJournal.OpenAsync(
                path,
                "cli",
                connection =>
                {
                    mode = connection.Ask<string>("PRAGMA journal_mode");
                    level = connection.Ask<long>("PRAGMA synchronous");
                },
                Stop
            );
            Assert.Equal(("wal", 2L), (mode, level));
        }
    }

    [Fact]
    public async Task A_folder_that_is_not_there_is_told()
    {
        var refused = await Assert.ThrowsAsync<StoreUnusableException>(() =>
            SqliteJournal.OpenAsync(_folder["nowhere/journal.db"], "cli", Stop)
        );
        Assert.Equal("store-cannot-be-opened", refused.Reason.Code);
    }

    private async Task<Entry> WriteAsync(string path, string text)
    {
        await using var journal = await SqliteJournal.OpenAsync(path, "cli", Stop);
        return (await journal.AppendAsync([Samples.Note(text)], Stop))[0];
    }

    private async Task<Units.Remark> RefusedAsync(string path, string code)
    {
        var before = await File.ReadAllBytesAsync(path, Stop);
        var names = Directory.GetFiles(_folder.ToString()).Order().ToList();
        var refused = await Assert.ThrowsAsync<StoreUnusableException>(() =>
            SqliteJournal.OpenAsync(path, "cli", Stop)
        );
        Assert.Equal(code, refused.Reason.Code);
        Assert.Equal(path, refused.Reason["file"]);
        Assert.Equal(before, await File.ReadAllBytesAsync(path, Stop));
        Assert.Equal(names, Directory.GetFiles(_folder.ToString()).Order());
        return refused.Reason;
    }

    private bool Anywhere(string text) =>
        Directory
            .GetFiles(_folder.ToString())
            .Any(file =>
            {
                using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
                var bytes = new byte[stream.Length];
                stream.ReadExactly(bytes);
                return bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;
            });
}
