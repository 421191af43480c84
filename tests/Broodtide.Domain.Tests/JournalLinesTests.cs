using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class JournalLinesTests
{
    private static readonly Entry[] Notes = Written();
    private static readonly string[] Whole = [.. JournalLines.Write(Notes)];

    [Fact]
    public void Every_entry_comes_back_byte_for_byte() =>
        Scrawl
            .Journals(30)
            .Sample(entries =>
            {
                var erased = entries.Select((entry, i) => i % 5 == 0 ? entry.Erased() : entry).ToList();
                var read = JournalLines.Read(JournalLines.Write(erased)).Value;
                Assert.Equal(Bytes(erased), Bytes(read));
            });

    [Fact]
    public void Equal_sets_give_equal_files() =>
        Scrawl
            .Journals(30)
            .Sample(entries =>
                Assert.Equal(JournalLines.Write(entries), JournalLines.Write(entries.Reverse()))
            );

    [Fact]
    public void Reading_a_file_twice_changes_nothing()
    {
        var account = Account.Of(JournalLines.Read(Whole).Value);
        Assert.Equal(0, account.AddAll(JournalLines.Read(Whole).Value));
        Assert.Equal(Whole, JournalLines.Write(account.Entries));
    }

    [Fact]
    public void An_empty_journal_is_a_whole_file() =>
        Assert.Empty(JournalLines.Read(JournalLines.Write([])).Value);

    [Fact]
    public void Blank_lines_at_the_end_and_a_byte_order_mark_do_no_harm()
    {
        string[] lines = ["\uFEFF" + Whole[0], .. Whole[1..], "", " "];
        Assert.Equal(Notes.Length, JournalLines.Read(lines).Value.Count);
    }

    // Also where the bit is in a writer, a number, or the hash that the last entry of a chain gives of the one before it.
    [Fact]
    public void Whatever_bit_of_a_file_is_changed_nothing_is_saved_that_was_not_written()
    {
        var (one, other) = (new Pen(1), new Pen(2));
        Entry[] written =
        [
            .. Enumerable.Range(0, 4).Select(i => one.Note($"one {i}", i)),
            .. Enumerable.Range(0, 3).Select(i => other.Note($"other {i}", i)),
        ];
        var digests = written.Select(entry => entry.Digest).ToHashSet();
        string[] lines = [.. JournalLines.Write(written)];
        var (found, saved) = (0, 0);
        for (var line = 1; line < lines.Length - 1; line++)
        {
            for (var at = 0; at < lines[line].Length; at++)
            {
                for (var bit = 0; bit < 7; bit++)
                {
                    var changed = lines[line].ToCharArray();
                    changed[at] ^= (char)(1 << bit);
                    string[] damaged = [.. lines[..line], new(changed), .. lines[(line + 1)..]];
                    var (entries, fault) = JournalLines.Salvage(damaged);
                    Assert.All(entries, entry => Assert.Contains(entry.Digest, digests));
                    found += fault is null ? 0 : 1;
                    saved += entries.Count;
                }
            }
        }

        Assert.True(saved > 4 * found, $"{saved} of {7 * found} were saved.");
    }

    public static TheoryData<string, string, int, int> Damages() =>
        new()
        {
            // What was done, the code, the line, how many entries can be saved.
            { "nothing left", "file-empty", 1, 0 },
            { "foreign", "file-foreign", 1, 0 },
            { "another format", "file-foreign", 1, 0 },
            { "version of no sense", "file-foreign", 1, 0 },
            { "newer", "file-newer", 1, 0 },
            { "only the first line", "file-cut-short", 1, 0 },
            { "no closing line", "file-cut-short", 4, 3 },
            { "torn last line", "file-cut-short", 3, 1 },
            { "line left out", "file-changed", 4, 2 },
            { "line twice", "file-changed", 6, 4 },
            { "lines exchanged", "file-changed", 5, 3 },
            // Only the next envelope and the closing line vouch for an envelope: it is not taken for whole.
            // The last entry denies the one before it, and nobody vouches for the last: either may be the changed one.
            { "entry changed", "file-changed", 5, 1 },
            { "body changed", "entry-not-whole", 3, 2 },
            { "salt changed", "entry-not-whole", 3, 2 },
            { "salt that is none", "line-not-an-entry", 3, 2 },
            { "line of something else", "line-not-an-entry", 3, 2 },
            { "blank line inside", "line-not-an-entry", 3, 3 },
            { "line after the end", "line-after-the-end", 6, 3 },
            { "two files in one", "line-after-the-end", 6, 3 },
        };

    [Theory]
    [MemberData(nameof(Damages))]
    public void Damage_is_told_with_its_line_and_what_is_whole_can_be_saved(
        string damage,
        string code,
        int line,
        int saved
    )
    {
        string[] lines = damage switch
        {
            "nothing left" => [],
            "foreign" => ["date,reading", "2026-03-01,33"],
            "another format" => ["{\"format\":\"photos\",\"version\":1}", .. Whole[1..]],
            "version of no sense" => [Whole[0].Replace("1}", "0}", StringComparison.Ordinal), .. Whole[1..]],
            "newer" => [Whole[0].Replace("1}", "2}", StringComparison.Ordinal), .. Whole[1..]],
            "only the first line" => Whole[..1],
            "no closing line" => Whole[..4],
            "torn last line" => [.. Whole[..2], Whole[2][..40]],
            "line left out" => [.. Whole[..2], .. Whole[3..]],
            "line twice" => [.. Whole[..2], .. Whole[1..]],
            "lines exchanged" => [Whole[0], Whole[2], Whole[1], .. Whole[3..]],
            "entry changed" => With(2, Whole[2].Replace("Ada", "Eda", StringComparison.Ordinal)),
            "body changed" => With(2, Whole[2].Replace("note 1", "note 7", StringComparison.Ordinal)),
            "salt changed" => With(
                2,
                Whole[2].Replace("\"salt\":\"", "\"salt\":\"AAAA", StringComparison.Ordinal)
            ),
            "salt that is none" => With(
                2,
                Whole[2].Replace("\"salt\":\"", "\"salt\":\"!", StringComparison.Ordinal)
            ),
            "line of something else" => With(2, "[1,2,3]"),
            "blank line inside" => [.. Whole[..2], "", .. Whole[2..]],
            "line after the end" => [.. Whole, "{}"],
            _ => [.. Whole, .. Whole],
        };
        var reason = JournalLines.Read(lines).Reason;
        Assert.Equal((code, (object)line), (reason?.Code, reason?["line"]));
        var (entries, fault) = JournalLines.Salvage(lines);
        Assert.Equal(saved, entries.Count);
        Assert.Equal(reason, fault);
    }

    [Fact]
    public void A_file_from_a_newer_version_says_which_is_allowed()
    {
        var reason = JournalLines.Read(["{\"format\":\"broodtide-journal\",\"version\":9}"]).Reason!;
        Assert.Equal((9, JournalLines.Version), (reason["version"], reason["allowed"]));
    }

    [Fact]
    public void Any_letter_changed_in_a_file_is_noticed_and_throws_nothing() =>
        Gen.Select(Gen.Int[0, Whole.Length - 1], Gen.Int[0, int.MaxValue], Gen.Char)
            .Sample(
                (line, at, letter) =>
                {
                    var text = Whole[line].ToCharArray();
                    var place = at % text.Length;
                    if (text[place] == letter)
                    {
                        return;
                    }

                    text[place] = letter;
                    var lines = With(line, new string(text));
                    var read = JournalLines.Read(lines);
                    JournalLines.Salvage(lines);
                    // Only the letters of a hash may be larger or smaller; they say the same.
                    Assert.True(!read.Succeeded || Bytes(Notes).SequenceEqual(Bytes(read.Value)));
                },
                iter: 5_000
            );

    private static Entry[] Written()
    {
        var pen = new Pen(0);
        return [pen.Note("note 0"), pen.Note("note 1"), pen.Note("note 2")];
    }

    private static string[] With(int line, string text)
    {
        string[] lines = [.. Whole];
        lines[line] = text;
        return lines;
    }

    private static IEnumerable<string> Bytes(IEnumerable<Entry> entries) =>
        entries
            .Select(e =>
                $"{Convert.ToHexString(e.Bytes.Envelope.Span)} {Convert.ToHexString(e.Bytes.SaltedBody.Span)}"
            )
            .Order(StringComparer.Ordinal);
}
