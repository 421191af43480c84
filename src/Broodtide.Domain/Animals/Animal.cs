using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Animals;

/// <summary>Where an animal was from some time on.</summary>
/// <param name="From">Since when.</param>
/// <param name="Vessel">Where; none if it is gone.</param>
public readonly record struct Whereabouts(Happened From, VesselId? Vessel);

/// <summary>One adult: who she is, where she was, what was seen of her. A total view of the journal.</summary>
public sealed class Animal
{
    private readonly List<Whereabouts> _places = [];
    private readonly List<Happened> _moults = [];
    private readonly List<Happened> _seenEmpty = [];
    private readonly List<BroodId> _broods = [];
    private readonly List<Remark> _conflicts = [];

    private Animal(AnimalId id) => Id = id;

    /// <summary>Identity.</summary>
    public AnimalId Id { get; }

    /// <summary>What she is called here; none if she was never described.</summary>
    public string? Name { get; private set; }

    /// <summary>Scientific name, as believed.</summary>
    public string? Species { get; private set; }

    /// <summary>Female or male, if known. Whoever carries eggs is female.</summary>
    public Sex? Sex { get; private set; }

    /// <summary>When she came into the house.</summary>
    public Happened? Acquired { get; private set; }

    /// <summary>When she died.</summary>
    public Happened? Died { get; private set; }

    /// <summary>Where she was, in the order of telling.</summary>
    public IReadOnlyList<Whereabouts> Places => _places;

    /// <summary>Her moults.</summary>
    public IReadOnlyList<Happened> Moults => _moults;

    /// <summary>When she was looked at and carried nothing.</summary>
    public IReadOnlyList<Happened> SeenEmpty => _seenEmpty;

    /// <summary>Her broods, first seen first.</summary>
    public IReadOnlyList<BroodId> Broods => _broods;

    /// <summary>What does not agree in her history.</summary>
    public IReadOnlyList<Remark> Conflicts => _conflicts;

    /// <summary>Where she was at an instant; none if unknown.</summary>
    public VesselId? PlaceAt(Instant instant)
    {
        VesselId? place = null;
        foreach (var (from, vessel) in _places)
        {
            if (from.Middle > instant)
            {
                break;
            }

            place = vessel;
        }

        return place;
    }

    /// <summary>The view of one animal in an account.</summary>
    public static Animal In(Account account, AnimalId id)
    {
        var animal = new Animal(id);
        foreach (var occurrence in account.About(Subject.Of(id)))
        {
            animal.Take(occurrence);
        }

        if (animal.Name is null)
        {
            animal._conflicts.Add(new Remark("animal-never-described", new Argument("animal", id)));
        }

        return animal;
    }

    private void Take(Occurrence occurrence)
    {
        var happened = occurrence.Happened;
        if (Died is { } died && happened.Earliest > died.Latest)
        {
            _conflicts.Add(
                new Remark(
                    "seen-after-death",
                    new("animal", Id),
                    new("entry", occurrence.Id),
                    new("died", died.Latest)
                )
            );
        }

        switch (occurrence.Fact)
        {
            case AnimalAcquired acquired:
                Name = acquired.Name;
                Species = acquired.Species ?? Species;
                Sex = acquired.Sex ?? Sex;
                Acquired ??= happened;
                Went(happened, acquired.Vessel);
                break;
            case AnimalMoulted:
                _moults.Add(happened);
                break;
            case AnimalMoved moved:
                Went(happened, moved.To);
                break;
            case AnimalIsolated isolated:
                Went(happened, isolated.To);
                break;
            case AnimalReturned returned:
                Went(happened, returned.To);
                break;
            case AnimalDied:
                Died = happened;
                _places.Add(new(happened, null));
                break;
            case AnimalSeenEmpty:
                _seenEmpty.Add(happened);
                break;
            case AnimalSeenBerried berried:
                if (Sex is Animals.Sex.Male)
                {
                    _conflicts.Add(
                        new Remark("male-seen-berried", new("animal", Id), new("entry", occurrence.Id))
                    );
                }

                Sex = Animals.Sex.Female;
                if (!_broods.Contains(berried.Brood))
                {
                    _broods.Add(berried.Brood);
                }

                break;
            default:
                break;
        }
    }

    private void Went(Happened from, VesselId? vessel)
    {
        if (vessel is not null)
        {
            _places.Add(new(from, vessel));
        }
    }
}
