using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Demo;

/// <summary>
/// Writes an invented story as drafts: days are told relative to today, clock times in the keeper's zone,
/// identities are counted, so that one instant and one zone always give the same journal.
/// </summary>
internal sealed class StoryTeller(LocalDate today, DateTimeZone zone)
{
    private readonly List<Draft> _drafts = [];
    private int _identities;

    public IReadOnlyList<Draft> Drafts => _drafts;

    /// <summary>The instant of a clock time some days from today; a time that does not exist that day moves on.</summary>
    public Instant At(int day, int hour, int minute = 0) =>
        zone.AtLeniently(today.PlusDays(day) + new LocalTime(hour, minute)).ToInstant();

    /// <summary>A counted identity in the form of UUID version 7, marked by zeros as invented.</summary>
    public Guid Identity()
    {
        _identities++;
        Span<byte> bytes = stackalloc byte[16];
        bytes.Clear();
        bytes[6] = 0x70;
        bytes[8] = 0x80;
        bytes[14] = (byte)(_identities >> 8);
        bytes[15] = (byte)_identities;
        return new Guid(bytes, bigEndian: true);
    }

    /// <summary>Something that happened at a known instant and was written down at once.</summary>
    public EntryId Tell(Instant when, Fact fact) => Tell(Happened.At(when), when, fact);

    /// <summary>Something that happened some time in an interval, written down at its end.</summary>
    public EntryId TellBetween(Instant earliest, Instant latest, Fact fact) =>
        Tell(Happened.Between(earliest, latest), latest, fact);

    /// <summary>The same fact told better, later.</summary>
    public void Correct(EntryId target, Instant happened, Instant written, Fact fact) =>
        Tell(Happened.At(happened), written, fact, new Correction(CorrectionKind.Replaces, target));

    private EntryId Tell(Happened happened, Instant written, Fact fact, Correction? correction = null)
    {
        var id = new EntryId(Identity());
        _drafts.Add(
            new Draft(id, new Author(InventedHouse.Keeper), written, zone.Id, happened, fact, correction)
        );
        return id;
    }
}
