using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using NodaTime;

namespace Broodtide.Workbench.Recording;

/// <summary>
/// Whoever writes in the journal: makes drafts with identities, clock, zone and name of the door that is used.
/// </summary>
/// <param name="author">Who writes.</param>
/// <param name="clock">The device's clock.</param>
/// <param name="zone">The time zone the writer is in.</param>
/// <param name="newId">Makes UUIDs of version 7.</param>
public sealed class Keeper(Author author, IClock clock, DateTimeZone zone, Func<Guid> newId)
{
    /// <summary>The time zone the writer is in.</summary>
    public DateTimeZone Zone => zone;

    /// <summary>The device's clock, now.</summary>
    public Instant Now => clock.GetCurrentInstant();

    /// <summary>A new identity.</summary>
    /// <typeparam name="TId">Of what.</typeparam>
    public TId New<TId>()
        where TId : struct, IIdentity<TId> => TId.From(newId());

    /// <summary>Something happened.</summary>
    /// <param name="fact">What.</param>
    /// <param name="happened">When; now if left out.</param>
    public Draft Write(Fact fact, Happened? happened = null)
    {
        var now = Now;
        return Make(fact, happened ?? Happened.At(now), now, null);
    }

    /// <summary>The same fact told better.</summary>
    /// <param name="occurrence">What happened, as told now.</param>
    /// <param name="fact">What happened, told better; the same if only the time was wrong.</param>
    /// <param name="happened">When; as told if left out.</param>
    public Draft Correct(Occurrence occurrence, Fact fact, Happened? happened = null) =>
        Make(
            fact,
            happened ?? occurrence.Happened,
            Now,
            new Correction(CorrectionKind.Replaces, occurrence.Told.Id)
        );

    /// <summary>It did not happen; or, of a correction, the correction does not stand.</summary>
    /// <param name="entry">The entry that is taken back.</param>
    /// <param name="reason">Why.</param>
    public Draft TakeBack(Entry entry, string? reason = null) =>
        Make(
            new EntryTakenBack(reason),
            entry.Envelope.Happened,
            Now,
            new Correction(CorrectionKind.Retracts, entry.Id)
        );

    /// <summary>The facts of an entry are removed everywhere; that they were removed stays.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="reason">Why.</param>
    public Draft Erase(Entry entry, string? reason = null) =>
        Make(
            new EntryTakenBack(reason),
            entry.Envelope.Happened,
            Now,
            new Correction(CorrectionKind.Erases, entry.Id)
        );

    private Draft Make(Fact fact, Happened happened, Instant now, Correction? correction) =>
        new(New<EntryId>(), author, now, zone.Id, happened, fact, correction);
}
