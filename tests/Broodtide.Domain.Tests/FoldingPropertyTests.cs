using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class FoldingPropertyTests
{
    private const int Spacing = 4;

    [Fact]
    public void A_folding_with_checkpoints_equals_one_from_nothing() =>
        Gen.Select(Scrawl.Journals(60), Gen.Int)
            .Sample((entries, seed) => Assert.True(Holds(new Story(), entries, seed)));

    [Fact]
    public void Checkpoints_are_placed_by_the_log_alone() =>
        Gen.Select(Scrawl.Journals(60), Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var (grown, _) = Grow(new Story(), entries, seed);
                    var (_, whole) = FromNothing(new Story(), entries);
                    grown.State();
                    whole.State();
                    // A folding that was rewound has only the places it went through since, and those it kept.
                    Assert.Equal(
                        whole.Checkpoints.Select(c =>
                            (c.Position, c.Mark, Convert.ToHexString(c.State.Span))
                        ),
                        grown.Checkpoints.Select(c => (c.Position, c.Mark, Convert.ToHexString(c.State.Span)))
                    );
                    Assert.All(whole.Checkpoints, c => Assert.Equal(0, c.Position % Spacing));
                }
            );

    [Fact]
    public void A_saved_checkpoint_is_taken_where_it_fits_and_only_there() =>
        Gen.Select(Scrawl.Journals(60), Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var random = new Random(seed);
                    var some = entries.Where(_ => random.Next(8) > 0).ToList();
                    var (_, saved) = FromNothing(new Story(), some);
                    saved.State();

                    var (account, folding) = FromNothing(new Story(), entries);
                    var expected = FromNothing(new Story(), entries).Folding.State().ToString();
                    foreach (var checkpoint in saved.Checkpoints.OrderBy(_ => random.Next()))
                    {
                        folding.Offer(checkpoint);
                    }

                    Assert.Equal(expected, folding.State().ToString());
                    Assert.Equal(account.Occurrences.Count, expected.Count(c => c == '\n'));
                }
            );

    [Fact]
    public void A_checkpoint_of_the_same_account_spares_the_beginning()
    {
        var entries = Notes(10);
        var (_, saved) = FromNothing(new Story(), entries);
        saved.State();
        var last = saved.Checkpoints.Last();
        var story = new Story();
        var (_, folding) = FromNothing(story, entries);

        Assert.Equal(8, last.Position);
        Assert.True(folding.Offer(last));
        folding.State();
        Assert.Equal(2, story.Steps);
    }

    [Fact]
    public void A_foreign_checkpoint_is_passed_over()
    {
        var entries = Notes(10);
        var (_, saved) = FromNothing(new Story(), entries);
        saved.State();
        var good = saved.Checkpoints.Last();
        Checkpoint[] foreign =
        [
            good with
            {
                Fold = "another",
            },
            good with
            {
                Version = 2,
            },
            good with
            {
                Position = 7,
            },
            good with
            {
                Position = 4,
            },
            good with
            {
                Position = 12,
            },
            good with
            {
                Position = 0,
            },
            good with
            {
                Position = -4,
            },
            good with
            {
                Mark = new PrefixMark(good.Mark.First ^ 1, good.Mark.Second),
            },
            good with
            {
                State = Encoding.UTF8.GetBytes("unreadable"),
            },
        ];
        foreach (var checkpoint in foreign)
        {
            var (_, folding) = FromNothing(new Story(), entries);
            Assert.False(folding.Offer(checkpoint), checkpoint.ToString());
        }
    }

    [Fact]
    public void A_late_entry_rewinds_to_the_last_checkpoint_before_it()
    {
        var pen = new Pen(1);
        var story = new Story();
        var (account, folding) = FromNothing(story, Notes(10));
        folding.State();
        account.Add(pen.Note("late", 6));
        story.Steps = 0;
        folding.State();
        Assert.Equal(11 - 4, story.Steps);
    }

    [Fact]
    public void Two_late_entries_in_a_row_drop_every_checkpoint_behind_the_earlier_one()
    {
        var pen = new Pen(1);
        var (account, folding) = FromNothing(new Story(), Notes(10));
        folding.State();
        account.Add(pen.Note("late", 9));
        account.Add(pen.Note("later to come, earlier to tell", 1));
        Assert.Equal(
            FromNothing(new Story(), account.Entries).Folding.State().ToString(),
            folding.State().ToString()
        );
    }

    [Fact]
    public void A_fold_that_depends_on_how_often_it_was_run_is_caught() =>
        Assert.True(IsCaught(() => new Counting()));

    [Fact]
    public void A_fold_that_saves_half_of_its_state_is_caught() =>
        Assert.True(IsCaught(() => new Forgetful()));

    private static bool IsCaught(Func<Story> fold)
    {
        var entries = Notes(12);
        return Enumerable.Range(0, 50).Any(seed => !Holds(fold(), entries, seed));
    }

    private static bool Holds(Story fold, IReadOnlyList<Entry> entries, int seed)
    {
        var (grown, account) = Grow(fold, entries, seed);
        var expected = FromNothing(new Story(), account.Entries).Folding.State().ToString();
        return string.Equals(expected, grown.State().ToString(), StringComparison.Ordinal);
    }

    private static (Folding<StringBuilder> Folding, Account Account) Grow(
        Story fold,
        IReadOnlyList<Entry> entries,
        int seed
    )
    {
        var random = new Random(seed);
        var order = entries.ToArray();
        random.Shuffle(order);
        var account = new Account(null, Spacing);
        var folding = account.Folding(fold);
        foreach (var entry in order)
        {
            account.Add(entry);
            if (random.Next(3) == 0)
            {
                folding.State();
            }
        }

        return (folding, account);
    }

    private static (Account Account, Folding<StringBuilder> Folding) FromNothing(
        Story fold,
        IEnumerable<Entry> entries
    )
    {
        var account = new Account(null, Spacing);
        account.AddAll(entries);
        return (account, account.Folding(fold));
    }

    private static Entry[] Notes(int count)
    {
        var pen = new Pen(0);
        return [.. Enumerable.Range(0, count).Select(i => pen.Note($"note {i}", i))];
    }

    // Tells everything that a fold can see, in order, changing its state in place.
    private class Story : IFold<StringBuilder>
    {
        public int Steps { get; set; }

        public string Name => "story";

        public int Version => 1;

        public StringBuilder Start() => new();

        public virtual StringBuilder Next(StringBuilder state, Occurrence occurrence, int position)
        {
            Steps++;
            return state
                .Append(position)
                .Append(' ')
                .Append(occurrence.Fact)
                .Append(occurrence.First.Fact)
                .Append(occurrence.HasRivals)
                .Append(occurrence.Told.Digest)
                .Append('\n');
        }

        public virtual byte[] Save(StringBuilder state) => Encoding.UTF8.GetBytes("story:" + state);

        public StringBuilder? Load(ReadOnlySpan<byte> bytes) =>
            bytes.StartsWith("story:"u8) ? new StringBuilder(Encoding.UTF8.GetString(bytes[6..])) : null;
    }

    private sealed class Counting : Story
    {
        public override StringBuilder Next(StringBuilder state, Occurrence occurrence, int position) =>
            base.Next(state, occurrence, Steps);
    }

    private sealed class Forgetful : Story
    {
        public override byte[] Save(StringBuilder state) =>
            Encoding.UTF8.GetBytes("story:" + state.ToString(0, state.Length / 2));
    }
}
