using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>How a meeting with the house went.</summary>
public enum Meeting
{
    /// <summary>None was tried yet.</summary>
    None,

    /// <summary>Both sides hold the same, as far as this person may send.</summary>
    Agreed,

    /// <summary>The house could not be reached; nothing is lost.</summary>
    Away,

    /// <summary>The house said no, or answered something else than it should.</summary>
    Refused,
}

/// <summary>What came of a meeting.</summary>
/// <param name="Meeting">How it went.</param>
/// <param name="Came">Entries that came; they are on the disk of this phone.</param>
/// <param name="Refusal">Why the house said no; none if it did not.</param>
/// <param name="Welcome">What the house said of itself; none if it did not come to that.</param>
/// <param name="WaitingOfOthers">How many entries wait here for others who use this phone to come back.</param>
public sealed record MeetingOutcome(
    Meeting Meeting,
    IReadOnlyList<Entry> Came,
    Remark? Refusal,
    Welcome? Welcome,
    int WaitingOfOthers
);

/// <summary>
/// Meets the house when it is there: gives what the house lacks of this person's entries, receives what this phone
/// lacks, and strikes off what the house holds for certain. May be broken off anywhere and done again: every step
/// asks anew what the other side holds, and counts nothing as done before its answer has come.
/// </summary>
/// <param name="link">The way to the house.</param>
/// <param name="journal">The journal on this phone.</param>
/// <param name="clock">The phone's clock.</param>
public sealed class PhoneMeeting(IServerLink link, PhoneJournal journal, IClock clock)
{
    private readonly List<Entry> _came = [];
    private readonly Dictionary<ReplicaId, int> _waiting = [];
    private Remark? _refusal;
    private Welcome? _welcome;

    /// <summary>One meeting.</summary>
    /// <param name="held">The entries held here, to know them; what is known already costs nothing.</param>
    /// <param name="cancellation">Stops between batches; what has gone over stays.</param>
    public async Task<MeetingOutcome> RunAsync(
        IReadOnlyCollection<Entry> held,
        CancellationToken cancellation = default
    )
    {
        _came.Clear();
        (_refusal, _welcome) = (null, null);
        try
        {
            await journal.KnowAsync(held);
            var waiting = await ReadWaitingAsync();
            var welcome = await ComeAsync(cancellation);
            _welcome = welcome;
            await journal.BelongsTo(welcome.Person);
            var isTold = await StrikeOffAsync(waiting, welcome);
            isTold &= !await GiveAsync(welcome, cancellation);
            await FetchAsync(welcome, cancellation);
            await BeginAnewIfRevokedAsync(welcome);
            if (!isTold)
            {
                // Who changes the address of the house must know that nothing waits.
                await ComeAsync(cancellation);
            }

            return Ended(_refusal is null ? Meeting.Agreed : Meeting.Refused);
        }
        catch (HouseRefusedException refused)
        {
            _refusal = refused.Reason;
            return Ended(Meeting.Refused);
        }
        catch (HouseAwayException)
        {
            return Ended(Meeting.Away);
        }
        catch (OperationCanceledException)
        {
            return Ended(Meeting.Away);
        }
    }

    private MeetingOutcome Ended(Meeting how) =>
        new(
            how,
            [.. _came],
            _refusal,
            _welcome,
            journal
                .Stores.Where(store => store.Person != journal.Person)
                .Sum(store => _waiting.GetValueOrDefault(store.Replica))
        );

    private async Task<IReadOnlyList<StoredRow>> ReadWaitingAsync()
    {
        var rows = await journal.ReadWaitingAsync();
        _waiting.Clear();
        foreach (var store in journal.Stores)
        {
            _waiting[store.Replica] = 0;
        }

        foreach (var replica in rows.GroupBy(row => new ReplicaId(row.Replica)))
        {
            _waiting[replica.Key] = replica.Count();
        }

        return rows;
    }

    private PhoneReport Report(ReplicaId replica = default, int given = 0)
    {
        var waiting = new Dictionary<ReplicaId, int>(_waiting);
        if (waiting.TryGetValue(replica, out var count))
        {
            waiting[replica] = Math.Max(0, count - given);
        }

        return new PhoneReport(waiting, clock.GetCurrentInstant());
    }

    private async Task<Welcome> ComeAsync(CancellationToken cancellation)
    {
        var answer = await link.AskAsync(
            GateRequest.Meet,
            SharingText.Meeting(journal.Holdings.Current, Report()),
            cancellation
        );
        return Understood(SharingText.ReadWelcome(answer));
    }

    // An answer that was lost: the house has had them since.
    private async Task<bool> StrikeOffAsync(IReadOnlyList<StoredRow> waiting, Welcome welcome)
    {
        var arrived = waiting
            .Where(row =>
                journal.Holdings.IsKnownThere(welcome.Holdings, new ReplicaId(row.Replica), row.Seq)
            )
            .ToList();
        await AcknowledgeAsync([.. arrived.Select(row => (row.Digest, new ReplicaId(row.Replica)))]);
        return arrived.Count == 0;
    }

    private async Task AcknowledgeAsync(IReadOnlyList<(Digest Digest, ReplicaId Replica)> arrived)
    {
        await journal.AcknowledgeAsync([.. arrived.Select(one => one.Digest)]);
        foreach (var replica in arrived.CountBy(one => one.Replica))
        {
            if (_waiting.TryGetValue(replica.Key, out var count))
            {
                _waiting[replica.Key] = Math.Max(0, count - replica.Value);
            }
        }
    }

    // Answers whether the house's knowledge of what waits here may be out of date afterwards.
    private async Task<bool> GiveAsync(Welcome welcome, CancellationToken cancellation)
    {
        if (welcome.Role is Role.Reader)
        {
            return false;
        }

        var here = journal.Stores.ToDictionary(store => store.Replica);
        foreach (var lacked in journal.Holdings.LackedBy(welcome.Holdings))
        {
            var isHere = here.TryGetValue(lacked.Replica, out var store);
            var isMine = isHere ? store!.Person == welcome.Person : welcome.Mine.Contains(lacked.Replica);
            if (!isMine && (isHere || welcome.RefillUntil is null))
            {
                continue;
            }

            try
            {
                await GiveAsync(lacked, isMine ? GateRequest.Give : GateRequest.Bring, isHere, cancellation);
            }
            catch (HouseRefusedException refused)
            {
                // What the house has for us must come all the same.
                _refusal = refused.Reason;
            }
        }

        return _refusal is not null;
    }

    private async Task GiveAsync(Lacked lacked, string request, bool isHere, CancellationToken cancellation)
    {
        var after = lacked.After;
        while (await journal.ReadAfterAsync(lacked.Replica, after, BatchSize.Entries) is { Count: > 0 } page)
        {
            var batch = BatchSize.FirstOf([.. page.Select(one => one.Entry)]);
            if (request == GateRequest.Bring)
            {
                // The house takes what others wrote only as the next of what it holds.
                batch = WithoutGap(batch, after);
                if (batch.Count == 0)
                {
                    return;
                }
            }

            var lost = isHere
                ? page.Take(batch.Count)
                    .Where(one => one.Acknowledged)
                    .Select(one => one.Entry.Digest)
                    .ToList()
                : [];
            if (lost.Count > 0)
            {
                // The house has lost what it held: until it has it again, it waits.
                await journal.AwaitAgainAsync(lost);
                _waiting[lacked.Replica] = _waiting.GetValueOrDefault(lacked.Replica) + lost.Count;
            }

            var answer = await link.AskAsync(
                request,
                SharingText.Giving(batch, Report(lacked.Replica, isHere ? batch.Count : 0)),
                cancellation
            );
            Understood(SharingText.ReadAccepted(answer));
            if (isHere)
            {
                await AcknowledgeAsync([.. batch.Select(entry => (entry.Digest, lacked.Replica))]);
            }

            after = batch[^1].Envelope.Sequence;
        }
    }

    private static List<Entry> WithoutGap(IReadOnlyList<Entry> entries, long after)
    {
        var run = new List<Entry>();
        foreach (var entry in entries)
        {
            if (entry.Envelope.Sequence > after + 1)
            {
                break;
            }

            run.Add(entry);
            after = entry.Envelope.Sequence;
        }

        return run;
    }

    private async Task FetchAsync(Welcome welcome, CancellationToken cancellation)
    {
        if (welcome.Lacking == 0)
        {
            return;
        }

        var fetched = 0L;
        var holdings = journal.Holdings.Current;
        var answer = AskAfterAsync(null);
        while (fetched < welcome.Lacking)
        {
            var batch = Understood(await EntryBatch.ReadInPiecesAsync(await answer));
            if (batch.Count == 0)
            {
                return;
            }

            fetched += batch.Count;
            if (fetched < welcome.Lacking)
            {
                // The house looks for the next while these are written here.
                answer = AskAfterAsync(
                    new FetchedUpTo(batch[^1].Envelope.Replica, batch[^1].Envelope.Sequence)
                );
            }

            var fresh = batch.Where(entry => !journal.Holdings.Holds(entry)).ToList();
            if (fresh.Count > 0)
            {
                await journal.TakeAsync(fresh, cancellation);
                _came.AddRange(fresh);
            }
        }

        Task<byte[]> AskAfterAsync(FetchedUpTo? after) =>
            link.AskAsync(GateRequest.Lacking, SharingText.Lacking(holdings, after), cancellation);
    }

    private async Task BeginAnewIfRevokedAsync(Welcome welcome)
    {
        if (welcome.Revoked.Contains(journal.Replica) && _waiting.GetValueOrDefault(journal.Replica) == 0)
        {
            await journal.BeginAnewAsync();
        }
    }

    private static T Understood<T>(Parsed<T> read)
        where T : notnull => read.Succeeded ? read.Value : throw new HouseRefusedException(read.Reason);
}
