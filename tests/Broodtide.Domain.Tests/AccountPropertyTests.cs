using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Tests.Kit;
using Broodtide.Domain.Vessels;
using CsCheck;
using NodaTime;

namespace Broodtide.Domain.Tests;

public class AccountPropertyTests
{
    // Above the number from which on many entries are sorted at once, and below it.
    private const int Most = 90;

    [Fact]
    public void An_account_tells_what_its_plain_twin_tells() =>
        Scrawl
            .Journals(Most)
            .Sample(entries =>
                Assert.Equal(new NaiveAccount(entries).Tell(), AccountText.Tell(Account.Of(entries)))
            );

    [Fact]
    public void An_account_is_the_same_for_every_order_of_arrival() =>
        Gen.Select(Scrawl.Journals(Most), Gen.Int)
            .Sample(
                (entries, seed) =>
                    Assert.Equal(
                        AccountText.All(Account.Of(entries)),
                        AccountText.All(Arrived(entries, seed))
                    )
            );

    [Fact]
    public void As_known_at_an_instant_is_the_account_of_what_was_written_by_then() =>
        Gen.Select(Scrawl.Journals(Most), Gen.Int, Gen.Int[-1, Scrawl.LatestMinute])
            .Sample(
                (entries, seed, minute) =>
                {
                    var then = Pen.Start + Duration.FromMinutes(minute);
                    var asKnown = Arrived(entries, seed, then);
                    Assert.Equal(new NaiveAccount(entries, then).Tell(), AccountText.Tell(asKnown));

                    // The same without the late ones, but for facts that were erased since.
                    var later = entries.Where(entry => entry.Envelope.Written > then).ToList();
                    if (!later.Exists(entry => entry.Envelope.Correction is { Kind: CorrectionKind.Erases }))
                    {
                        var writtenByThen = entries.Except(later);
                        Assert.Equal(AccountText.All(Account.Of(writtenByThen)), AccountText.All(asKnown));
                    }
                }
            );

    [Fact]
    public void Facts_that_come_after_their_envelope_are_taken_in_unless_erased() =>
        Gen.Select(Scrawl.Journals(Most), Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var account = Arrived([.. entries.Select(entry => entry.Erased()), .. entries], seed);
                    Assert.Equal(AccountText.All(Account.Of(entries)), AccountText.All(account));
                }
            );

    [Fact]
    public void An_entry_that_comes_again_changes_nothing() =>
        Scrawl
            .Journals(30)
            .Sample(entries =>
            {
                var account = Account.Of(entries);
                var before = AccountText.All(account);
                Assert.All(entries, entry => Assert.False(account.Add(entry)));
                Assert.Equal(0, account.AddAll(entries));
                Assert.Equal(before, AccountText.All(account));
            });

    [Fact]
    public void What_was_not_over_by_an_instant_is_what_may_have_happened_at_it_or_later() =>
        Gen.Select(Scrawl.Journals(Most), Gen.Int, Gen.Int[-3, Scrawl.LatestMinute])
            .Sample(
                (entries, seed, minute) =>
                {
                    var since = Pen.Start + Duration.FromMinutes(minute);
                    var account = Arrived(entries, seed);
                    foreach (var subject in Subjects(account))
                    {
                        var all = account.About(subject).ToList();
                        Assert.Equal(
                            all.Where(occurrence => occurrence.Happened.Latest >= since),
                            account.AboutSince(subject, since)
                        );
                        Assert.Equal(all, account.AboutSince(subject, Instant.MinValue));
                        Assert.Empty(account.AboutSince(subject, Instant.MaxValue));
                    }
                }
            );

    [Fact]
    public void What_happened_of_one_kind_is_told_of_every_subject_also_after_more_has_come() =>
        Gen.Select(Scrawl.Journals(Most), Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var account = Arrived(entries[..(entries.Length / 2)], seed);
                    var house = new House(account);
                    Same(house);
                    foreach (var entry in entries[(entries.Length / 2)..])
                    {
                        account.Add(entry);
                        house = house.Renewed();
                        Same(house);
                    }
                },
                iter: 30
            );

    private static void Same(House house)
    {
        foreach (var subject in Subjects(house.Account))
        {
            var all = house.Account.About(subject).ToList();
            Assert.Equal(all.Where(told => told.Fact is NoteWritten), house.Told<NoteWritten>(subject));
            Assert.Equal(all.Where(told => told.Fact is UnknownFact), house.Told<UnknownFact>(subject));
            Assert.Empty(house.Told<VesselEmptied>(subject));
        }
    }

    private static IEnumerable<Subject> Subjects(Account account) =>
        Enum.GetValues<SubjectKind>()
            .SelectMany(kind => account.Subjects(kind).Select(id => new Subject(kind, id)));

    // More than a few pieces are put in order, each by itself, and then merged.
    [Fact]
    public void An_account_that_is_told_in_pieces_is_the_one_that_is_told_at_once() =>
        Gen.Select(Scrawl.Journals(900), Gen.Int[0, 900], Gen.Int)
            .Sample(
                (entries, first, seed) =>
                {
                    var order = entries.ToArray();
                    new Random(seed).Shuffle(order);
                    var account = new Account();
                    var pauses = account.AddAllInPieces(order[..Math.Min(first, order.Length)]).Count();
                    pauses += account.AddAllInPieces(order[Math.Min(first, order.Length)..]).Count();
                    Assert.Equal(AccountText.All(Account.Of(entries)), AccountText.All(account));
                    Assert.True(pauses > 0 || entries.Length < 256);
                },
                iter: 25
            );

    [Fact]
    public void The_plain_twin_notices_an_account_that_follows_the_order_of_arrival()
    {
        var pen = new Pen(0);
        var first = pen.Note("first");
        Entry[] entries = [first, pen.Replace(first, "later", 5), pen.Replace(first, "sooner", 4)];
        var told = Assert.Single(new NaiveAccount(entries).Tell());

        // The last to arrive is not the last by writing.
        Assert.DoesNotContain(entries[2].Digest.ToString(), told, StringComparison.Ordinal);
        Assert.StartsWith(entries[1].Digest.ToString(), told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chain_of_corrections_may_be_as_long_as_somebody_cares_to_write()
    {
        var pen = new Pen(0);
        var entries = new List<Entry> { pen.Note("it happened") };
        for (var i = 1; i <= 20_000; i++)
        {
            entries.Add(pen.Retract(entries[^1], i));
        }

        // An even number of retractions, each of the one before, leaves the fact standing.
        Assert.Single(Account.Of(entries).Occurrences);
        Assert.Empty(Account.Of(entries[..^1]).Occurrences);
    }

    // Brings entries in a random order, one by one or in heaps.
    private static Account Arrived(IReadOnlyList<Entry> entries, int seed, Instant? asKnownAt = null)
    {
        var random = new Random(seed);
        var order = entries.ToArray();
        random.Shuffle(order);
        var account = new Account(asKnownAt);
        for (var next = 0; next < order.Length; )
        {
            var heap = random.Next(4) == 0 ? random.Next(1, order.Length - next + 1) : 1;
            if (heap == 1)
            {
                account.Add(order[next]);
            }
            else
            {
                account.AddAll(order[next..(next + heap)]);
            }

            next += heap;
        }

        return account;
    }
}
