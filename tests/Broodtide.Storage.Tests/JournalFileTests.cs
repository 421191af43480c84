using Broodtide.Domain.Journal;
using Broodtide.Workbench.Recording;

namespace Broodtide.Storage.Tests;

public sealed class JournalFileTests : IDisposable
{
    private readonly Folder _folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Out_and_in_and_out_again_gives_the_same_bytes()
    {
        var (journal, path) = await ExportedAsync();
        var other = new MemoryJournal(Samples.NewReplica());
        var taken = await JournalFile.ImportAsync(other, path, Stop);
        Assert.Equal((6, 0), (taken.Value.New, taken.Value.Known));
        var again = await JournalFile.ImportAsync(other, path, Stop);
        Assert.Equal((0, 6), (again.Value.New, again.Value.Known));
        await JournalFile.ExportAsync(other, _folder["second.jsonl"], Stop);
        Assert.Equal(
            await File.ReadAllBytesAsync(path, Stop),
            await File.ReadAllBytesAsync(_folder["second.jsonl"], Stop)
        );
        Assert.Equal(
            Samples.Shape(await journal.ReadAllAsync(Stop)),
            Samples.Shape(await other.ReadAllAsync(Stop))
        );
    }

    [Fact]
    public async Task A_file_cut_anywhere_is_refused_and_nothing_is_taken()
    {
        var (_, path) = await ExportedAsync();
        var whole = await File.ReadAllBytesAsync(path, Stop);
        // The last byte is the end of the closing line: without it the file is still whole.
        for (var length = 0; length < whole.Length - 1; length += 7)
        {
            var cut = _folder["cut.jsonl"];
            await File.WriteAllBytesAsync(cut, whole[..length], Stop);
            var journal = new MemoryJournal(Samples.NewReplica());
            var taken = await JournalFile.ImportAsync(journal, cut, Stop);
            Assert.False(taken.Succeeded, $"cut at {length}");
            Assert.NotNull(taken.Reason["line"]);
            Assert.Empty(await journal.ReadAllAsync(Stop));
        }
    }

    [Theory]
    [InlineData(1, 5)]
    // It is denied by the last one of its chain, which nobody vouches for: either may be the changed one.
    [InlineData(3, 4)]
    // The last one of a chain: nobody denies it, so no end of a chain can be believed.
    [InlineData(6, 3)]
    public async Task An_envelope_that_was_changed_and_still_is_one_is_not_taken_for_whole(
        int line,
        int whole
    )
    {
        var (journal, path) = await ExportedAsync();
        var put = (await journal.ReadAllAsync(Stop)).Select(entry => entry.Digest).ToHashSet();
        var lines = await File.ReadAllLinesAsync(path, Stop);
        Assert.Contains("\"Ada\\\"", lines[line], StringComparison.Ordinal);
        lines[line] = lines[line].Replace("\"Ada\\\"", "\"Ida\\\"", StringComparison.Ordinal);
        await File.WriteAllLinesAsync(_folder["changed.jsonl"], lines, Stop);
        var (entries, fault) = JournalFile.Salvage(_folder["changed.jsonl"]);
        Assert.Equal("file-changed", fault!.Code);
        Assert.Equal(whole, entries.Count);
        Assert.All(entries, entry => Assert.Contains(entry.Digest, put));
    }

    [Fact]
    public async Task A_changed_byte_anywhere_is_refused()
    {
        var (_, path) = await ExportedAsync();
        var whole = await File.ReadAllBytesAsync(path, Stop);
        for (var place = 0; place < whole.Length - 1; place += 11)
        {
            var changed = (byte[])whole.Clone();
            changed[place] ^= 1;
            await File.WriteAllBytesAsync(_folder["changed.jsonl"], changed, Stop);
            Assert.False(JournalFile.Read(_folder["changed.jsonl"]).Succeeded, $"changed at {place}");
        }
    }

    [Fact]
    public async Task A_foreign_file_is_refused_with_its_line()
    {
        await File.WriteAllTextAsync(_folder["other.jsonl"], """{"format":"recipes","version":1}""", Stop);
        var read = JournalFile.Read(_folder["other.jsonl"]);
        Assert.Equal("file-foreign", read.Reason!.Code);
        Assert.Equal(1, read.Reason["line"]);
        Assert.Equal("broodtide-journal", read.Reason["allowed"]);
    }

    [Fact]
    public async Task An_endless_line_is_refused_without_being_read_whole()
    {
        await using (var stream = File.Create(_folder["zeros.bin"]))
        {
            stream.SetLength(200_000_000);
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal("file-foreign", JournalFile.Read(_folder["zeros.bin"]).Reason!.Code);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 100_000_000);
    }

    [Fact]
    public async Task What_is_whole_in_a_cut_file_can_be_saved()
    {
        var (_, path) = await ExportedAsync();
        var lines = await File.ReadAllLinesAsync(path, Stop);
        await File.WriteAllTextAsync(
            _folder["cut.jsonl"],
            string.Join('\n', lines[..4]) + "\n" + lines[4][..30],
            Stop
        );
        var (entries, fault) = JournalFile.Salvage(_folder["cut.jsonl"]);
        Assert.Equal(3, entries.Count);
        Assert.Equal("file-cut-short", fault!.Code);
    }

    [Fact]
    public async Task Other_line_ends_do_no_harm()
    {
        var (_, path) = await ExportedAsync();
        var text = await File.ReadAllTextAsync(path, Stop);
        await File.WriteAllTextAsync(path, text.Replace("\n", "\r\n", StringComparison.Ordinal), Stop);
        Assert.True(JournalFile.Read(path).Succeeded);
    }

    [Fact]
    public async Task An_export_that_fails_leaves_the_older_file()
    {
        var (_, path) = await ExportedAsync();
        var before = await File.ReadAllBytesAsync(path, Stop);
        Assert.Throws<InvalidOperationException>(() => JournalFile.Write(path, Failing(), Stop));
        Assert.Equal(before, await File.ReadAllBytesAsync(path, Stop));
        Assert.Equal([path], Directory.GetFiles(_folder.ToString()));
    }

    private static IEnumerable<Entry> Failing()
    {
        yield return Samples.Unknown(Samples.NewReplica(), 1, null);
        throw new InvalidOperationException("The store failed.");
    }

    private async Task<(MemoryJournal Journal, string Path)> ExportedAsync()
    {
        var journal = new MemoryJournal(Samples.NewReplica());
        var written = await journal.AppendAsync(
            [
                Samples.Note("Grüße \"抱卵\" \\ \u2028 \ud83e\udd90"),
                Samples.Note("b"),
                Samples.Note("secret"),
            ],
            Stop
        );
        await journal.AppendAsync([Samples.Erasure(written[2].Id)], Stop);
        // The file is ordered by replica: this one comes behind, and two that were made within a millisecond stand in no order.
        var other = Samples.NewReplica();
        while (other.Value < journal.Replica.Value)
        {
            other = Samples.NewReplica();
        }

        var unknown = Samples.Unknown(other, 1, null);
        await journal.TakeAsync([unknown, Samples.Seal(Samples.Note("twin"), other, 1, null)], Stop);
        var path = _folder["journal.jsonl"];
        Assert.Equal(6, await JournalFile.ExportAsync(journal, path, Stop));
        return (journal, path);
    }
}
