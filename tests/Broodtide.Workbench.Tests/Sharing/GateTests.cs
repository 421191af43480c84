using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>What the gate takes, holds back and refuses.</summary>
public sealed class GateTests : IDisposable
{
    private static readonly Visitor Ada = Person(1, "Ada", Role.Owner);
    private static readonly Visitor Ben = Person(2, "Ben", Role.Keeper);
    private static readonly Visitor Cleo = Person(3, "Cleo", Role.Helper);
    private static readonly Visitor Dan = Person(4, "Dan", Role.Reader);

    private readonly ModelHouse _house = new([Ada, Ben, Cleo, Dan]);

    public void Dispose() => _house.Dispose();

    [Fact]
    public async Task A_store_is_bound_to_the_person_who_first_sends_from_it()
    {
        var store = NewReplica();
        Assert.True((await GiveAsync(Ben, Chain(store, "Ben", 2))).Succeeded);
        Assert.Equal(Ben.Person, _house.Memory.Bindings()[store]);
        await RefusedAsync(Ada, Chain(store, "Ada", 3), "sync-replica-of-another");
    }

    [Fact]
    public async Task The_whole_batch_is_refused_for_one_entry_and_has_no_effect()
    {
        var good = Chain(NewReplica(), "Ben", 2);
        var bad = Chain(NewReplica(), "ada ", 1);
        await RefusedAsync(Ben, [.. good, .. bad], "sync-author-of-another");
        Assert.Empty(_house.Memory.Bindings());
    }

    [Fact]
    public async Task The_software_signs_with_a_version_and_is_nobody()
    {
        var entry = Seal(NewReplica(), 1, null, new Author("Ada", "1.0"));
        Assert.True((await GiveAsync(Ben, [entry])).Succeeded);
    }

    [Fact]
    public async Task A_broken_chain_is_refused_where_the_entry_before_is_here_or_in_the_batch()
    {
        var store = NewReplica();
        var chain = Chain(store, "Ben", 3);
        var broken = Seal(store, 3, chain[0].Digest, new Author("Ben"));
        await RefusedAsync(Ben, [chain[0], chain[1], broken], "sync-chain-broken");
        await GiveAsync(Ben, chain[..2]);
        await RefusedAsync(Ben, [broken], "sync-chain-broken");
        // Behind a gap nothing can be said: it is kept, and what lies between may come later.
        var later = Seal(store, 9, chain[0].Digest, new Author("Ben"));
        Assert.True((await GiveAsync(Ben, [later])).Succeeded);
        Assert.True((await GiveAsync(Ben, [chain[2]])).Succeeded);
    }

    [Fact]
    public async Task Two_entries_under_one_number_are_both_kept_since_a_phone_may_have_been_put_back()
    {
        var store = NewReplica();
        var chain = Chain(store, "Ben", 2);
        await GiveAsync(Ben, chain);
        var rival = Seal(store, 2, chain[0].Digest, new Author("Ben"));
        Assert.True((await GiveAsync(Ben, [rival])).Succeeded);
        var conflicts = Account.Of(await _house.Journal.ReadAllAsync(Stop)).Conflicts();
        Assert.Contains(conflicts, conflict => conflict.Code == "number-twice");
    }

    [Fact]
    public async Task Who_only_reads_writes_nothing() =>
        await RefusedAsync(Dan, Chain(NewReplica(), "Dan", 1), "sync-reader-writes");

    [Fact]
    public async Task Entries_of_the_houses_own_doors_are_never_taken_from_a_session()
    {
        var own = await _house.WriteAsync("by the house");
        var forged = Seal(_house.Journal.Replica, 2, own.Digest, new Author("Broodtide", "1.0"));
        await RefusedAsync(Ada, [forged], "sync-replica-of-the-house");
        await _house.Owner.OpenRefillAsync(Ada, Duration.FromHours(1), Stop);
        await RefusedAsync(Ada, [forged], "sync-replica-of-the-house", brings: true);
    }

    [Fact]
    public async Task Another_persons_entry_cannot_be_pushed_aside_under_its_own_identity()
    {
        var first = Chain(NewReplica(), "Ben", 1);
        await GiveAsync(Ben, first);
        var twin = Draft("Cleo", id: first[0].Id).Seal(NewReplica(), 1, null, Salt());
        await RefusedAsync(Cleo, [twin], "sync-identity-of-another");
    }

    [Fact]
    public async Task Too_many_at_once_are_refused() =>
        await RefusedAsync(Ben, Chain(NewReplica(), "Ben", BatchSize.MostEntries + 1), "sync-batch-too-big");

    [Fact]
    public async Task A_helpers_corrections_of_what_others_wrote_wait_for_the_owner_and_own_ones_do_not()
    {
        var bens = Chain(NewReplica(), "Ben", 1);
        await GiveAsync(Ben, bens);
        var store = NewReplica();
        var own = Chain(store, "Cleo", 1);
        var ownCorrected = Draft("Cleo", new(CorrectionKind.Replaces, own[0].Id))
            .Seal(store, 2, own[0].Digest, Salt());
        var others = Draft("Cleo", new(CorrectionKind.Erases, bens[0].Id))
            .Seal(store, 3, ownCorrected.Digest, Salt());
        var unknown = Draft("Cleo", new(CorrectionKind.Retracts, new(Guid.CreateVersion7())))
            .Seal(store, 4, others.Digest, Salt());
        var ofHeldBack = Draft("Cleo", new(CorrectionKind.Retracts, others.Id))
            .Seal(store, 5, unknown.Digest, Salt());
        var after = Seal(store, 6, ofHeldBack.Digest, new Author("Cleo"));
        var accepted = await GiveAsync(Cleo, [.. own, ownCorrected, others, unknown, ofHeldBack, after]);
        Assert.Equal(new Accepted(3, 0, 3), accepted.Value);
        Assert.True((await HeldAsync())[bens[0].Digest].HasBody);
        Assert.Equal(
            [HeldBack.CorrectsAnothers, HeldBack.CorrectsAnothers, HeldBack.CorrectsHeldBack],
            (await _house.Owner.LookAsync(Ada, Stop)).Value.HeldBack.Select(held => held.Reason)
        );
        // The phone need not send them again: for its person they have arrived.
        var welcome = await _house.Gate.MeetAsync(Cleo, Nothing, PhoneReport.Nothing, Stop);
        Assert.Equal(6, welcome.Holdings.Replicas[store].Highest);
        Assert.Equal(3, welcome.HeldBack);

        Assert.Equal(1, (await _house.Owner.LetInAsync(Ada, [others.Digest], Stop)).Value);
        Assert.Equal(
            2,
            (await _house.Owner.DiscardAsync(Ada, [unknown.Digest, ofHeldBack.Digest], Stop)).Value
        );
        var held = await HeldAsync();
        Assert.False(held[bens[0].Digest].HasBody);
        Assert.False(held.ContainsKey(unknown.Digest));
        Assert.Equal(new Accepted(0, 2, 0), (await GiveAsync(Cleo, [unknown, ofHeldBack])).Value);
    }

    [Fact]
    public async Task What_a_revoked_store_still_had_waits_for_the_owner_and_its_person_begins_a_new_one()
    {
        using var phone = await ModelPhone.MakeAsync(_house.AskAsync, Ben, new ModelClock());
        await phone.NoteAsync("before");
        await phone.MeetAsync();
        var revoked = phone.Journal.Replica;
        await _house.Owner.RevokePersonAsync(Ada, Ben.Person, Stop);
        var late = await phone.NoteAsync("unsent");
        var met = await phone.MeetAsync();
        Assert.Equal((Meeting.Agreed, 0), (met.Meeting, await phone.Journal.CountWaitingAsync()));
        Assert.Equal(
            [(late[0].Digest, HeldBack.OfRevoked)],
            _house.Memory.HeldBack().Select(held => (held.Digest, held.Reason))
        );
        Assert.NotEqual(revoked, phone.Journal.Replica);
        await phone.NoteAsync("in the new store");
        await phone.MeetAsync();
        Assert.Equal(2, (await HeldAsync()).Count);
    }

    [Fact]
    public async Task After_a_restore_others_entries_are_taken_only_in_the_refill_without_a_gap_and_marked()
    {
        var store = NewReplica();
        var bens = Chain(store, "Ben", 4);
        await GiveAsync(Ben, bens[..1]);
        await RefusedAsync(Ada, bens[1..3], "sync-refill-closed", brings: true);
        await _house.Owner.OpenRefillAsync(Ada, Duration.FromHours(24), Stop);
        await RefusedAsync(Ada, bens[2..], "sync-refill-gap", brings: true);
        Assert.Equal(new Accepted(2, 1, 0), (await GiveAsync(Ada, bens[..3], brings: true)).Value);
        Assert.Equal(
            [(bens[1].Digest, Ada.Person), (bens[2].Digest, Ada.Person)],
            _house.Memory.Marks().Select(mark => (mark.Entry, mark.Person))
        );
        _house.Clock.GoOn(Duration.FromHours(25));
        await RefusedAsync(Ada, bens[3..], "sync-refill-closed", brings: true);
        Assert.True((await GiveAsync(Ben, bens[3..])).Succeeded);
    }

    [Fact]
    public async Task A_refill_is_open_for_a_week_at_most_and_opened_by_the_owner_alone()
    {
        Assert.Equal(
            "sync-refill-length",
            (await _house.Owner.OpenRefillAsync(Ada, Duration.FromDays(8), Stop)).Reason?.Code
        );
        Assert.Equal(
            "sync-owner-only",
            (await _house.Owner.OpenRefillAsync(Ben, Duration.FromDays(1), Stop)).Reason?.Code
        );
        Assert.Equal("sync-owner-only", Assert.Single(_house.Memory.Refusals()).Code);
        Assert.Null(_house.Memory.RefillUntil());
    }

    [Fact]
    public async Task A_clock_that_is_days_off_refuses_nothing_and_is_remarked()
    {
        using var phone = await ModelPhone.MakeAsync(
            _house.AskAsync,
            Ben,
            new ModelClock(Duration.FromDays(-3))
        );
        var written = await phone.NoteAsync("from a phone that is three days behind");
        var met = await phone.MeetAsync();
        Assert.Equal(Meeting.Agreed, met.Meeting);
        Assert.InRange(met.Welcome!.SecondsAhead, -3 * 86_400 - 60, -3 * 86_400 + 60);
        var mark = Assert.Single(_house.Memory.Marks());
        Assert.Equal((written[0].Digest, MarkSort.ClockFarOff), (mark.Entry, mark.Sort));
    }

    [Fact]
    public async Task An_unknown_kind_is_kept()
    {
        var known = Chain(NewReplica(), "Ben", 1)[0];
        var envelope = System.Text.Encoding.UTF8.GetBytes(
            System
                .Text.Encoding.UTF8.GetString(known.Bytes.Envelope.Span)
                .Replace("note written", "song sung", StringComparison.Ordinal)
        );
        var entry = Entry.Read(new EntryBytes(envelope, known.Bytes.SaltedBody)).Value;
        Assert.Equal(1, (await GiveAsync(Ben, [entry])).Value.New);
    }

    [Fact]
    public async Task Two_peoples_corrections_of_one_entry_are_both_kept_and_shown()
    {
        using var bens = await ModelPhone.MakeAsync(_house.AskAsync, Ben, new ModelClock());
        using var adas = await ModelPhone.MakeAsync(_house.AskAsync, Ada, new ModelClock());
        var note = (await bens.NoteAsync("33"))[0];
        await bens.MeetAsync();
        await adas.MeetAsync();
        await bens.CorrectAsync(note.Id, CorrectionKind.Replaces);
        await adas.CorrectAsync(note.Id, CorrectionKind.Replaces);
        await bens.MeetAsync();
        await adas.MeetAsync();
        await bens.MeetAsync();
        foreach (
            var entries in new[]
            {
                await bens.Journal.ReadAllAsync(Stop),
                await adas.Journal.ReadAllAsync(Stop),
            }
        )
        {
            var account = Account.Of(entries);
            Assert.Equal(2, account.CorrectionsOf(note.Id).Count());
            Assert.Contains(account.Conflicts(), conflict => conflict.Code == "rival-corrections");
        }
    }

    [Fact]
    public async Task Another_person_on_the_same_phone_has_a_store_of_his_own_and_leaves_the_others_waiting()
    {
        using var phone = await ModelPhone.MakeAsync(_house.AskAsync, Ben, new ModelClock());
        var bens = await phone.NoteAsync("unsent");
        var first = phone.Journal.Replica;
        await phone.HandToAsync(Cleo);
        Assert.NotEqual(first, phone.Journal.Replica);
        await phone.NoteAsync("hers");
        await phone.MeetAsync();
        Assert.Equal(1, await phone.Journal.CountWaitingAsync());
        Assert.False((await HeldAsync()).ContainsKey(bens[0].Digest));
        var said = Assert.Single(_house.Memory.Reports(), report => report.Replica == first);
        Assert.Equal(1, said.Waiting);
        await phone.HandToAsync(Ben);
        Assert.Equal(first, phone.Journal.Replica);
        await phone.MeetAsync();
        Assert.Equal(0, await phone.Journal.CountWaitingAsync());
        Assert.All(_house.Memory.Reports(), report => Assert.Equal(0, report.Waiting));
    }

    [Fact]
    public async Task A_phone_that_was_put_back_to_an_older_copy_goes_on_in_a_new_store()
    {
        using var phone = await ModelPhone.MakeAsync(_house.AskAsync, Ben, new ModelClock());
        await phone.NoteAsync("one");
        var copy = phone.Rows.Copy();
        await phone.NoteAsync("two");
        await phone.MeetAsync();
        var before = phone.Journal.Replica;
        await phone.RestartAsync(copy);
        await phone.MeetAsync();
        Assert.NotEqual(before, phone.Journal.Replica);
        await phone.NoteAsync("three");
        await phone.MeetAsync();
        Assert.Equal(3, (await HeldAsync()).Count);
        Assert.Empty(Account.Of(await _house.Journal.ReadAllAsync(Stop)).Conflicts());
    }

    [Fact]
    public async Task Facts_that_were_missing_are_filled_in()
    {
        using var phone = await ModelPhone.MakeAsync(_house.AskAsync, Ben, new ModelClock());
        var entry = Chain(NewReplica(), "Ada", 1)[0];
        await phone.Journal.TakeAsync([entry.Erased()], Stop);
        await phone.Journal.TakeAsync([entry], Stop);
        Assert.True((await phone.Journal.ReadAllAsync(Stop))[0].HasBody);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static Holdings Nothing => new(new Dictionary<ReplicaId, Held>());

    private async Task RefusedAsync(
        Visitor visitor,
        IReadOnlyList<Entry> batch,
        string code,
        bool brings = false
    )
    {
        var before = await _house.Journal.ReadAllAsync(Stop);
        var logged = _house.Memory.Refusals().Count;
        Assert.Equal(code, (await GiveAsync(visitor, batch, brings)).Reason?.Code);
        Assert.Equal(before.Count, (await _house.Journal.ReadAllAsync(Stop)).Count);
        var refusal = _house.Memory.Refusals().Skip(logged).Single();
        Assert.Equal((code, visitor.Person), (refusal.Code, refusal.Person));
    }

    private async Task<Units.Parsed<Accepted>> GiveAsync(
        Visitor visitor,
        IReadOnlyList<Entry> batch,
        bool brings = false
    ) => await _house.Gate.GiveAsync(visitor, batch, brings, PhoneReport.Nothing, Stop);

    private async Task<Dictionary<Digest, Entry>> HeldAsync() =>
        (await _house.Journal.ReadAllAsync(Stop)).ToDictionary(entry => entry.Digest);

    private static Entry[] Chain(ReplicaId store, string author, int count)
    {
        var chain = new List<Entry>();
        for (var number = 1; number <= count; number++)
        {
            chain.Add(Seal(store, number, chain.Count > 0 ? chain[^1].Digest : null, new Author(author)));
        }

        return [.. chain];
    }

    private static Entry Seal(ReplicaId store, long number, Digest? previous, Author author) =>
        (Draft(author.Name) with { Author = author }).Seal(store, number, previous, Salt());

    private static Draft Draft(string author, Correction? correction = null, EntryId? id = null)
    {
        var at = Instant.FromUtc(2026, 3, 1, 21, 0);
        return new(
            id ?? new EntryId(Guid.CreateVersion7()),
            new Author(author),
            at,
            "Etc/UTC",
            Happened.At(at),
            correction is { Kind: not CorrectionKind.Replaces }
                ? new EntryTakenBack()
                : new NoteWritten("note"),
            correction
        );
    }

    private static byte[] Salt() => Guid.NewGuid().ToByteArray();

    private static ReplicaId NewReplica() => new(Guid.CreateVersion7());

    private static Visitor Person(int number, string name, Role role) =>
        new(new PersonId(KeptJournal.Fixed(number)), name, role);
}
