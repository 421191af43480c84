using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>What the journal tells of a brood, as facts on an axis of days.</summary>
internal sealed class BroodTelling
{
    // No clutch is carried for half a year: what lies further off is of another brood or mistyped.
    private const double ReachDays = 180;

    // Beyond the oldest eggs the forecast considers, emptiness bounds nothing.
    private const double EmptyReachDays = 60;

    private readonly DayAxis _axis;
    private readonly Instant _now;
    private readonly List<BroodFact> _facts = [];
    private readonly List<Remark> _remarks = [];
    private bool _sawEggs;

    private BroodTelling(DayAxis axis, Instant now)
    {
        _axis = axis;
        _now = now;
    }

    /// <summary>What was seen.</summary>
    public IReadOnlyList<BroodFact> Facts => _facts;

    /// <summary>What could not be used, and why.</summary>
    public IReadOnlyList<Remark> Remarks => _remarks;

    /// <summary>Whether nothing bounds the age of the eggs.</summary>
    public bool AgeUnknown { get; private set; }

    /// <summary>When anything of the brood was first seen; none if nothing was.</summary>
    public static Instant? Anchor(Brood brood)
    {
        var first = brood.FirstSeenBerried?.Latest;
        foreach (
            var when in brood
                .Looks.Select(look => look.When.Latest)
                .Concat(brood.FirstLarvae is { } larvae ? [larvae.Latest] : [])
                .Concat(brood.Dropped is { } dropped ? [dropped.Latest] : [])
        )
        {
            first = first is { } known && known <= when ? known : when;
        }

        return first;
    }

    /// <summary>The telling of one brood.</summary>
    public static BroodTelling Of(House house, Brood brood, DayAxis axis, Instant now, DateTimeZone zone)
    {
        var telling = new BroodTelling(axis, now);
        if (brood.LastSeenEmpty is { } empty && brood.FirstSeenBerried is { } berried)
        {
            if ((berried.Latest - empty.Earliest).TotalDays <= EmptyReachDays)
            {
                telling.Add(null, empty.Earliest, day => new BroodFact.SeenEmpty(day));
            }
            else
            {
                telling.AgeUnknown = true;
            }
        }

        telling.AgeUnknown |= brood.AgeUnknown;
        telling.TakeMoultBefore(house, brood);
        foreach (var occurrence in house.Account.About(Subject.Of(brood.Id)))
        {
            telling.Take(occurrence);
        }

        telling.LookLater(house, brood);
        telling.TakeLarvae(brood, zone);
        return telling;
    }

    // Eggs hang on the skin that is shed: after a moult she carries none, whoever looked. The last one before the clutch was
    // seen is the mating moult.
    private void TakeMoultBefore(House house, Brood brood)
    {
        if (
            brood.FirstSeenBerried is { } berried
            && Adults.MatingMoult.Of(house, brood) is { Moult: { } moult }
            && moult.Earliest <= berried.Earliest
            && (berried.Latest - moult.Earliest).TotalDays <= EmptyReachDays
            && (brood.LastSeenEmpty is not { } empty || empty.Earliest < moult.Earliest)
        )
        {
            Add(null, moult.Earliest, day => new BroodFact.SeenEmpty(day));
            AgeUnknown = false;
        }
    }

    private void Take(Occurrence occurrence)
    {
        switch (occurrence.Fact)
        {
            case AnimalSeenBerried when !_sawEggs:
                // Until the latest instant she may have been bare.
                _sawEggs |= Add(
                    occurrence.Id,
                    occurrence.Happened.Latest,
                    day => new BroodFact.SeenBerried(day)
                );
                break;
            case AnimalSeenBerried or AnimalIsolated:
                Add(occurrence.Id, occurrence.Happened.Middle, day => new BroodFact.StillCarried(day));
                break;
            case EggsObserved seen:
                Look(occurrence, seen);
                break;
            case EggsDropped { All: true }:
                Add(occurrence.Id, occurrence.Happened.Middle, day => new BroodFact.Dropped(day));
                break;
            default:
                break;
        }
    }

    private void Look(Occurrence occurrence, EggsObserved seen)
    {
        var when = occurrence.Happened.Middle;
        if (seen.Carried is false)
        {
            Add(occurrence.Id, when, day => new BroodFact.SeenEmpty(day));
            return;
        }

        bool? pale = seen.Colour switch
        {
            EggColour.Pale => true,
            EggColour.Dark => false,
            // Between dark and pale says neither.
            _ => null,
        };
        if (seen.Eyed is not null || pale is not null)
        {
            Add(occurrence.Id, when, day => new BroodFact.EggsLookedAt(day, seen.Eyed, pale));
        }

        if (seen.Saddle is true)
        {
            Add(occurrence.Id, when, day => new BroodFact.SaddleSeen(day));
        }

        if (seen.Eyed is null && pale is null)
        {
            Add(occurrence.Id, when, day => new BroodFact.StillCarried(day));
        }
    }

    // Emptiness seen after the eggs, before she carried the next: they hatched or fell unseen.
    private void LookLater(House house, Brood brood)
    {
        if (brood.Animal is not { } animal || brood.FirstSeenBerried is not { } berried)
        {
            return;
        }

        foreach (var occurrence in house.Account.About(Subject.Of(animal)))
        {
            if (occurrence.Happened.Earliest <= berried.Latest)
            {
                continue;
            }

            if (occurrence.Fact is AnimalSeenBerried next && next.Brood != brood.Id)
            {
                break;
            }

            if (occurrence.Fact is AnimalSeenEmpty)
            {
                Add(occurrence.Id, occurrence.Happened.Middle, day => new BroodFact.SeenEmpty(day));
            }
        }
    }

    private void TakeLarvae(Brood brood, DateTimeZone zone)
    {
        if (brood.FirstLarvae is not { } larvae)
        {
            return;
        }

        // Larvae seen at one instant came out some time in the night before, noon to noon.
        var from =
            larvae.Doubt > Duration.Zero
                ? larvae.Earliest
                : DayAxis.Noon(DayAxis.EveningOf(larvae.Latest, zone), zone);
        if (from > larvae.Latest)
        {
            from = larvae.Latest;
        }

        var until = _axis.DayOf(larvae.Latest);
        Add(null, from, day => new BroodFact.FirstLarvae(day, Math.Max(day, until)), larvae.Latest);
    }

    private bool Add(EntryId? entry, Instant when, Func<double, BroodFact> fact, Instant? latest = null)
    {
        var day = _axis.DayOf(when);
        if (Math.Abs(day) > ReachDays || Math.Abs(_axis.DayOf(latest ?? when)) > ReachDays)
        {
            Note("hatch-fact-of-another-time", entry, when);
            return false;
        }

        if (when > _now)
        {
            Note("hatch-fact-not-yet-happened", entry, when);
            return false;
        }

        _facts.Add(fact(day));
        return true;
    }

    private void Note(string code, EntryId? entry, Instant when) =>
        _remarks.Add(
            entry is { } id
                ? new Remark(code, new("entry", id), new("when", when))
                : new Remark(code, new Argument("when", when))
        );
}
