using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// What the owner sees and decides at the gate: entries that were held back, the time in which others' entries may
/// be brought, stores that are revoked, what was refused. Anybody else is refused, and that is kept.
/// </summary>
/// <param name="gate">The gate.</param>
public sealed class OwnersGate(Gate gate)
{
    /// <summary>How long a refill is open unless told otherwise.</summary>
    public static readonly Duration UsualRefill = Duration.FromHours(24);

    /// <summary>The longest a refill may be open.</summary>
    public static readonly Duration LongestRefill = Duration.FromDays(7);

    /// <summary>Everything the owner should know of sharing.</summary>
    public Task<Parsed<GateState>> LookAsync(Visitor visitor, CancellationToken cancellation = default) =>
        AsOwner(
            visitor,
            view =>
                Task.FromResult(
                    Parsed<GateState>.Of(
                        new GateState(
                            [.. gate.Memory.HeldBack().Where(held => held.Decision is Decision.None)],
                            view.IsRefillOpen ? gate.Memory.RefillUntil() : null,
                            Stores(view),
                            gate.Memory.Marks(),
                            gate.Memory.Refusals(),
                            view.Names
                        )
                    )
                ),
            cancellation
        );

    /// <summary>Lets entries that were held back into the journal, in their order.</summary>
    /// <returns>How many; a digest that does not wait counts for nothing.</returns>
    public Task<Parsed<int>> LetInAsync(
        Visitor visitor,
        IReadOnlyCollection<Digest> entries,
        CancellationToken cancellation = default
    ) => DecideAsync(visitor, entries, held => gate.LetInAsync(held, cancellation), cancellation);

    /// <summary>Throws entries that were held back away: they never reach the journal.</summary>
    /// <returns>How many; a digest that does not wait counts for nothing.</returns>
    public Task<Parsed<int>> DiscardAsync(
        Visitor visitor,
        IReadOnlyCollection<Digest> entries,
        CancellationToken cancellation = default
    ) =>
        DecideAsync(
            visitor,
            entries,
            held =>
            {
                gate.Decide(held, Decision.Discarded);
                return Task.CompletedTask;
            },
            cancellation
        );

    /// <summary>After a restore: for a time, phones may bring entries that others wrote.</summary>
    /// <param name="visitor">The owner.</param>
    /// <param name="length">How long; over none and at most <see cref="LongestRefill"/>.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>Until when.</returns>
    public Task<Parsed<Instant>> OpenRefillAsync(
        Visitor visitor,
        Duration length,
        CancellationToken cancellation = default
    ) =>
        AsOwner(
            visitor,
            _ =>
            {
                if (length <= Duration.Zero || length > LongestRefill)
                {
                    return Task.FromResult(
                        Parsed<Instant>.No(
                            "sync-refill-length",
                            new("hours", length.TotalHours),
                            new("allowedHours", LongestRefill.TotalHours)
                        )
                    );
                }

                var until = gate.Clock.GetCurrentInstant() + length;
                gate.Memory.SetRefill(until);
                return Task.FromResult(Parsed<Instant>.Of(until));
            },
            cancellation
        );

    /// <summary>Ends the time in which others' entries may be brought.</summary>
    public Task<Parsed<bool>> CloseRefillAsync(Visitor visitor, CancellationToken cancellation = default) =>
        AsOwner(
            visitor,
            view =>
            {
                gate.Memory.SetRefill(null);
                return Task.FromResult(Parsed<bool>.Of(view.IsRefillOpen));
            },
            cancellation
        );

    /// <summary>From now on, what these stores send is held back for the owner.</summary>
    public Task<Parsed<int>> RevokeAsync(
        Visitor visitor,
        IReadOnlyCollection<ReplicaId> replicas,
        CancellationToken cancellation = default
    ) =>
        AsOwner(
            visitor,
            view =>
            {
                var theirs = replicas.Where(replica => !view.OwnEver.Contains(replica)).ToList();
                gate.Memory.Revoke(theirs, gate.Clock.GetCurrentInstant());
                return Task.FromResult(Parsed<int>.Of(theirs.Count));
            },
            cancellation
        );

    /// <summary>From now on, what any store of a person sends is held back for the owner.</summary>
    /// <returns>How many stores.</returns>
    public Task<Parsed<int>> RevokePersonAsync(
        Visitor visitor,
        PersonId person,
        CancellationToken cancellation = default
    ) =>
        AsOwner(
            visitor,
            view =>
            {
                var theirs = view.Bindings.Where(one => one.Value == person).Select(one => one.Key).ToList();
                gate.Memory.Revoke(theirs, gate.Clock.GetCurrentInstant());
                return Task.FromResult(Parsed<int>.Of(theirs.Count));
            },
            cancellation
        );

    private Task<Parsed<int>> DecideAsync(
        Visitor visitor,
        IReadOnlyCollection<Digest> entries,
        Func<IReadOnlyList<HeldBack>, Task> decide,
        CancellationToken cancellation
    ) =>
        AsOwner(
            visitor,
            async _ =>
            {
                var held = Waiting(entries);
                await decide(held);
                return Parsed<int>.Of(held.Count);
            },
            cancellation
        );

    private Task<Parsed<T>> AsOwner<T>(
        Visitor visitor,
        Func<GateView, Task<Parsed<T>>> work,
        CancellationToken cancellation
    )
        where T : notnull =>
        gate.InHouseTurn(
            view => visitor.Role is Role.Owner ? work(view) : Task.FromResult(Parsed<T>.No(Refusal(visitor))),
            cancellation
        );

    private Remark Refusal(Visitor visitor)
    {
        var reason = new Remark("sync-owner-only", new Argument("person", visitor.Name));
        gate.Refuse(visitor, reason);
        return reason;
    }

    private List<HeldBack> Waiting(IReadOnlyCollection<Digest> entries)
    {
        var wanted = entries.ToHashSet();
        return
        [
            .. gate
                .Memory.HeldBack()
                .Where(held => held.Decision is Decision.None && wanted.Contains(held.Digest))
                .OrderBy(held => held.Replica.Value)
                .ThenBy(held => held.Sequence),
        ];
    }

    private List<StoreState> Stores(GateView view)
    {
        var reports = gate.Memory.Reports().ToDictionary(report => report.Replica);
        return
        [
            .. view
                .Bindings.Keys.Union(reports.Keys)
                .OrderBy(replica => replica.Value)
                .Select(replica => new StoreState(
                    replica,
                    view.Bindings.TryGetValue(replica, out var person) ? person : null,
                    view.Index.Open.Of(replica).Count,
                    view.Revoked.ContainsKey(replica),
                    reports.GetValueOrDefault(replica)
                )),
        ];
    }
}

/// <summary>How sharing stands.</summary>
/// <param name="HeldBack">Entries that wait for the owner.</param>
/// <param name="RefillUntil">Until when others' entries may be brought; none if they may not.</param>
/// <param name="Stores">Every store that has sent or reported anything.</param>
/// <param name="Marks">What the house says of entries: brought by whom, clocks far off.</param>
/// <param name="Refusals">What was refused, oldest first.</param>
/// <param name="Names">Who is who.</param>
public sealed record GateState(
    IReadOnlyList<HeldBack> HeldBack,
    Instant? RefillUntil,
    IReadOnlyList<StoreState> Stores,
    IReadOnlyList<EntryMark> Marks,
    IReadOnlyList<Refusal> Refusals,
    IReadOnlyList<SigningName> Names
);

/// <summary>How one store stands.</summary>
/// <param name="Replica">The store.</param>
/// <param name="Person">Whose it is; none before it has sent anything.</param>
/// <param name="Held">How many of its entries are in the journal.</param>
/// <param name="IsRevoked">Whether what it sends is held back.</param>
/// <param name="Report">What it last said of itself; none if it never did.</param>
public sealed record StoreState(
    ReplicaId Replica,
    PersonId? Person,
    long Held,
    bool IsRevoked,
    Reported? Report
);
