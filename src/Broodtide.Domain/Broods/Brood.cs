using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Broods;

/// <summary>One look at a clutch.</summary>
/// <param name="When">When.</param>
/// <param name="Seen">What was looked for and what was seen.</param>
/// <param name="Entry">The entry that says so.</param>
public sealed record EggLook(Happened When, EggsObserved Seen, EntryId Entry);

/// <summary>Larvae gathered at one time.</summary>
/// <param name="When">When.</param>
/// <param name="Made">What was written of it.</param>
/// <param name="Entry">The entry that says so.</param>
public sealed record Gathering(Happened When, CollectionMade Made, EntryId Entry);

/// <summary>One crossing.</summary>
/// <param name="When">When.</param>
/// <param name="Made">What was written of it.</param>
/// <param name="Entry">The entry that says so.</param>
public sealed record Crossover(Happened When, CrossingMade Made, EntryId Entry);

/// <summary>
/// One clutch of eggs: on whom, since when, what was seen of it, what became of it. A total view of the journal.
/// </summary>
public sealed class Brood
{
    private readonly List<EggLook> _looks = [];
    private readonly List<Gathering> _gatherings = [];
    private readonly List<Crossover> _crossings = [];
    private readonly List<Happened> _hatching = [];
    private readonly List<Remark> _conflicts = [];

    private Brood(BroodId id) => Id = id;

    /// <summary>Identity.</summary>
    public BroodId Id { get; }

    /// <summary>What it is called here.</summary>
    public string? Name { get; private set; }

    /// <summary>The female; none if she was never named.</summary>
    public AnimalId? Animal { get; private set; }

    /// <summary>When she was last seen without eggs before this brood; none if she never was.</summary>
    public Happened? LastSeenEmpty { get; private set; }

    /// <summary>When the clutch was first seen.</summary>
    public Happened? FirstSeenBerried { get; private set; }

    /// <summary>Whether nothing bounds the spawning from below: she came berried.</summary>
    public bool AgeUnknown { get; private set; }

    /// <summary>Looks at the eggs, in the order of telling.</summary>
    public IReadOnlyList<EggLook> Looks => _looks;

    /// <summary>When she was put alone.</summary>
    public Happened? Isolated { get; private set; }

    /// <summary>Where she was put alone.</summary>
    public VesselId? HatchingBox { get; private set; }

    /// <summary>When the eggs were dropped; none if they were not, or not all.</summary>
    public Happened? Dropped { get; private set; }

    /// <summary>Where the dropped eggs lie.</summary>
    public VesselId? DroppedIn { get; private set; }

    /// <summary>When larvae were seen in the water, first sighting first.</summary>
    public IReadOnlyList<Happened> Hatching => _hatching;

    /// <summary>Whether hatching was judged to be over.</summary>
    public Happened? HatchingOver { get; private set; }

    /// <summary>Collections, in the order of telling.</summary>
    public IReadOnlyList<Gathering> Gatherings => _gatherings;

    /// <summary>Crossings, in the order of telling.</summary>
    public IReadOnlyList<Crossover> Crossings => _crossings;

    /// <summary>What does not agree in its history.</summary>
    public IReadOnlyList<Remark> Conflicts => _conflicts;

    /// <summary>The first time larvae are known to have been there: seen, collected or crossed.</summary>
    public Happened? FirstLarvae
    {
        get
        {
            Happened? first = null;
            foreach (
                var when in _hatching
                    .Concat(_gatherings.Select(gathering => gathering.When))
                    .Concat(_crossings.Select(crossing => crossing.When))
            )
            {
                first = first is { } known && known.Latest <= when.Latest ? known : when;
            }

            return first;
        }
    }

    /// <summary>The latest instant at which she was known to carry it; none if never.</summary>
    public Instant? LastSeenCarried
    {
        get
        {
            var last = FirstSeenBerried?.Earliest;
            foreach (var look in _looks)
            {
                // Whoever looks at the eggs on her has seen that she carries them, unless it says otherwise.
                if (look.Seen.Carried is not false && (last is null || look.When.Earliest > last))
                {
                    last = look.When.Earliest;
                }
            }

            return last;
        }
    }

    /// <summary>The view of one brood in an account.</summary>
    public static Brood In(Account account, BroodId id)
    {
        var brood = new Brood(id);
        foreach (var occurrence in account.About(Subject.Of(id)))
        {
            brood.Take(occurrence);
        }

        brood.LookBefore(account);
        return brood;
    }

    private void Take(Occurrence occurrence)
    {
        var happened = occurrence.Happened;
        switch (occurrence.Fact)
        {
            case AnimalSeenBerried berried:
                if (Animal is { } other && other != berried.Animal)
                {
                    _conflicts.Add(
                        new Remark("brood-on-two-animals", new("brood", Id), new("entry", occurrence.Id))
                    );
                    break;
                }

                Animal = berried.Animal;
                Name = berried.Name ?? Name;
                AgeUnknown |= berried.AgeUnknown;
                FirstSeenBerried ??= happened;
                break;
            case EggsObserved seen:
                _looks.Add(new(happened, seen, occurrence.Id));
                break;
            case EggsDropped dropped:
                if (dropped.All)
                {
                    Dropped ??= happened;
                    DroppedIn ??= dropped.Vessel;
                }

                break;
            case AnimalIsolated isolated:
                Isolated = happened;
                HatchingBox = isolated.To;
                break;
            case HatchingSeen hatching:
                _hatching.Add(happened);
                if (hatching.Over)
                {
                    HatchingOver ??= happened;
                }

                break;
            case CollectionMade collection:
                _gatherings.Add(new(happened, collection, occurrence.Id));
                break;
            case CrossingMade crossing:
                _crossings.Add(new(happened, crossing, occurrence.Id));
                break;
            default:
                break;
        }

        if (
            FirstSeenBerried is { } seen0
            && occurrence.Fact is HatchingSeen or CollectionMade or CrossingMade
            && happened.Latest < seen0.Earliest
        )
        {
            _conflicts.Add(new Remark("larvae-before-eggs", new("brood", Id), new("entry", occurrence.Id)));
        }
    }

    private void LookBefore(Account account)
    {
        if (Animal is not { } animal || FirstSeenBerried is not { } berried)
        {
            return;
        }

        foreach (var occurrence in account.About(Subject.Of(animal)))
        {
            if (occurrence.Fact is AnimalSeenEmpty && occurrence.Happened.Earliest <= berried.Latest)
            {
                LastSeenEmpty = occurrence.Happened;
            }
            else if (
                occurrence.Fact is AnimalSeenBerried earlier
                && earlier.Brood != Id
                && occurrence.Happened.Earliest <= berried.Earliest
            )
            {
                // Emptiness seen before another brood says nothing about this one.
                LastSeenEmpty = null;
            }
        }
    }
}
