using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class CorrectionTests
{
    private readonly Pen _ada = new(0);
    private readonly Pen _jon = new(1);

    [Fact]
    public void A_replacement_tells_the_same_fact_better()
    {
        var first = _ada.Note("jar 1");
        var better = _ada.Replace(first, "jar 2", 1);
        var best = _ada.Replace(better, "jar 3", 2);
        var account = Account.Of([best, first, better]);
        var told = Assert.Single(account.Occurrences);
        Assert.Equal(
            ("jar 3", first.Id, true, false),
            (Words(told), told.Id, told.IsCorrected, told.HasRivals)
        );
        Assert.Equal(
            [Standing.Replaced, Standing.Replaced, Standing.Stands],
            new[] { first, better, best }.Select(account.StandingOf)
        );
        Assert.Empty(account.Conflicts());
    }

    [Fact]
    public void A_retraction_of_the_first_entry_says_that_it_did_not_happen()
    {
        var first = _ada.Note("it happened");
        var better = _ada.Replace(first, "it happened so", 1);
        var back = _ada.Retract(first, 2);
        var account = Account.Of([first, better, back]);
        Assert.Empty(account.Occurrences);
        Assert.Equal(
            [Standing.TakenBack, Standing.LostToRival, Standing.TakesBack],
            new[] { first, better, back }.Select(account.StandingOf)
        );
    }

    [Fact]
    public void A_retraction_of_a_correction_withdraws_the_correction()
    {
        var first = _ada.Note("right after all");
        var worse = _ada.Replace(first, "wrong", 1);
        var back = _ada.Retract(worse, 2);
        var account = Account.Of([first, worse, back]);
        Assert.Equal("right after all", Words(Assert.Single(account.Occurrences)));
        Assert.Equal(
            [Standing.Stands, Standing.TakenBack, Standing.TakesBack],
            new[] { first, worse, back }.Select(account.StandingOf)
        );

        account.Add(_ada.Retract(back, 3));
        Assert.Equal("wrong", Words(Assert.Single(account.Occurrences)));
    }

    [Fact]
    public void A_retraction_that_is_taken_back_leaves_the_fact_standing()
    {
        var first = _ada.Note("it happened");
        var back = _ada.Retract(first, 1);
        var account = Account.Of([first, back, _ada.Retract(back, 2)]);
        Assert.Equal("it happened", Words(Assert.Single(account.Occurrences)));
        Assert.Equal(Standing.TakenBack, account.StandingOf(back));
    }

    [Fact]
    public void A_retraction_may_be_told_better_by_facts()
    {
        var first = _ada.Note("jar 1");
        var back = _ada.Retract(first, 1);
        var told = _ada.Replace(back, "it was jar 2", 2);
        var occurrence = Assert.Single(Account.Of([first, back, told]).Occurrences);
        Assert.Equal(("it was jar 2", first.Id), (Words(occurrence), occurrence.Id));
    }

    [Fact]
    public void Of_two_rivals_the_later_by_writing_stands_and_both_are_shown()
    {
        var first = _ada.Note("ten");
        var ada = _ada.Replace(first, "eleven", 5);
        var jon = _jon.Replace(first, "twelve", 4);
        var account = Account.Of([first, ada, jon]);
        var told = Assert.Single(account.Occurrences);
        Assert.Equal(("eleven", true), (Words(told), told.HasRivals));
        Assert.Equal(Standing.LostToRival, account.StandingOf(jon));
        Assert.Equal([jon, ada], account.CorrectionsOf(first.Id));
        var conflict = Assert.Single(account.Conflicts());
        Assert.Equal(
            ("rival-corrections", first.Id, ada.Id),
            (conflict.Code, conflict["entry"], conflict["stands"])
        );
    }

    [Fact]
    public void Rivals_are_shown_also_where_a_retraction_stands()
    {
        var first = _ada.Note("ten");
        var account = Account.Of([first, _jon.Replace(first, "twelve", 4), _ada.Retract(first, 5)]);
        Assert.Empty(account.Occurrences);
        Assert.Equal("rival-corrections", Assert.Single(account.Conflicts()).Code);
    }

    [Fact]
    public void Corrections_of_what_is_not_here_are_rivals_of_each_other_and_tell_one_thing()
    {
        var first = _ada.Note("not here yet");
        var account = Account.Of([_ada.Replace(first, "eleven", 5), _jon.Replace(first, "twelve", 4)]);
        Assert.Equal("eleven", Words(Assert.Single(account.Occurrences)));
        Assert.Equal(
            ["corrects-what-is-not-here", "corrects-what-is-not-here", "rival-corrections"],
            account.Conflicts().Select(conflict => conflict.Code)
        );

        account.Add(first);
        Assert.Equal(first.Id, Assert.Single(account.Occurrences).Id);
        Assert.Single(account.Conflicts());
    }

    [Fact]
    public void Erased_facts_are_gone_in_every_order_and_the_chain_still_verifies()
    {
        var first = _ada.Note("a private matter");
        var erasure = _ada.EraseFacts(first, 1);
        Entry[][] orders =
        [
            [first, erasure],
            [erasure, first],
        ];
        foreach (var order in orders)
        {
            var account = Account.Of(order);
            Assert.Equal(new ErasedFact("note written"), Assert.Single(account.Occurrences).Fact);
            Assert.Equal(Standing.Erased, account.StandingOf(first));
            Assert.Equal(Standing.TakesBack, account.StandingOf(erasure));
            Assert.Empty(account.Conflicts());
            Assert.False(account.Add(first));
            Assert.All(account.Entries, entry => Assert.True(entry.Id != first.Id || !entry.HasBody));
        }
    }

    [Fact]
    public void What_was_erased_since_stays_erased_in_as_it_was_known_then()
    {
        var first = _ada.Note("a private matter");
        var account = Account.Of([first, _ada.EraseFacts(first, 9)], Pen.Start);
        Assert.Equal(1, account.EntryCount);
        Assert.IsType<ErasedFact>(Assert.Single(account.Occurrences).Fact);
    }

    [Fact]
    public void As_known_at_an_instant_is_what_was_written_by_then()
    {
        var first = _ada.Note("ten");
        Entry[] entries = [first, _ada.Replace(first, "eleven", 5), _ada.Note("late", 6)];
        Assert.Equal(["ten"], Account.Of(entries, Pen.Start).Occurrences.Select(Words));
        Assert.Equal(["eleven", "late"], Account.Of(entries).Occurrences.Select(Words).Order());
    }

    [Fact]
    public void Two_entries_of_one_identity_are_kept_and_the_first_by_writing_is_told()
    {
        var first = _ada.Note("first", 1);
        var twin = _jon.Write(new NoteWritten("twin"), 2, id: first.Id);
        foreach (var order in new Entry[][] { [first, twin], [twin, first] })
        {
            var account = new Account();
            Assert.All(order, entry => Assert.True(account.Add(entry)));
            Assert.Equal("first", Words(Assert.Single(account.Occurrences)));
            Assert.Equal(2, account.EntryCount);
            Assert.Equal(Standing.LostToRival, account.StandingOf(twin));
            Assert.Equal("identity-twice", Assert.Single(account.Conflicts()).Code);
        }
    }

    [Fact]
    public void Two_entries_with_one_number_are_both_kept_and_shown()
    {
        var one = new Pen(0).Note("one life");
        var other = new Pen(0).Write(new NoteWritten("another life"), id: new(Pen.Uuid(3)));
        var account = Account.Of([one, other]);
        Assert.Equal(2, account.Occurrences.Count);
        var conflict = Assert.Single(account.Conflicts());
        Assert.Equal(("number-twice", 1L), (conflict.Code, conflict["sequence"]));
    }

    [Fact]
    public void A_chain_that_does_not_hold_is_shown_and_a_gap_is_not()
    {
        var pen = new Pen(2);
        Entry[] chain = [pen.Note("1"), pen.Note("2"), pen.Note("3"), pen.Note("4")];
        var stranger = pen.Raw(
            chain[0].Envelope with
            {
                Id = new(Pen.Uuid(9)),
                Sequence = 5,
                Previous = chain[0].Digest,
            },
            """{"text":"5"}""",
            5
        );
        Assert.Empty(Account.Of([chain[0], chain[3]]).Conflicts());
        var conflict = Assert.Single(Account.Of([.. chain, stranger]).Conflicts());
        Assert.Equal(("chain-broken", 5L), (conflict.Code, conflict["sequence"]));
    }

    [Fact]
    public void Facts_that_are_not_here_though_nobody_erased_them_are_shown()
    {
        var account = Account.Of([_ada.Note("lost").Erased()]);
        Assert.Equal("facts-missing", Assert.Single(account.Conflicts()).Code);
    }

    [Fact]
    public void What_happens_a_day_after_it_was_written_is_shown()
    {
        var ahead = _ada.Write(
            new NoteWritten("tomorrow"),
            happened: Happened.At(Pen.Start + NodaTime.Duration.FromHours(25))
        );
        Assert.Equal("happened-after-written", Assert.Single(Account.Of([ahead]).Conflicts()).Code);
    }

    [Fact]
    public void Replicas_are_ordered_as_their_texts() =>
        Gen.Select(Gen.Guid, Gen.Guid)
            .Sample(
                (x, y) =>
                    Assert.Equal(
                        Math.Sign(string.CompareOrdinal(x.ToString(), y.ToString())),
                        Math.Sign(x.CompareTo(y))
                    )
            );

    [Fact]
    public void An_entry_that_is_not_in_the_account_has_no_standing() =>
        Assert.Throws<ArgumentException>(() => new Account().StandingOf(_ada.Note("elsewhere")));

    private static string Words(Occurrence occurrence) => ((NoteWritten)occurrence.Fact).Text;
}
