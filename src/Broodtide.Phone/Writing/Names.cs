using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Language;

namespace Broodtide.Phone.Writing;

/// <summary>The names of things in the house, and what may be chosen by name.</summary>
public sealed class Names
{
    private readonly House _house;
    private readonly Words _words;
    private readonly Formats _formats;

    internal Names(House house, Words words, Formats formats)
    {
        _house = house;
        _words = words;
        _formats = formats;
    }

    private IReadOnlyDictionary<Guid, string>? _collections;

    /// <summary>Everything of a sort that can be chosen now: what is still there, the newest first.</summary>
    public IReadOnlyList<(string Id, string Name)> Choices(Thing thing) =>
        thing switch
        {
            Thing.Vessel => Listed(
                _house
                    .Vessels.OrderBy(vessel => vessel.Standing is null)
                    .ThenBy(vessel => vessel.Role is VesselRole.Cup),
                vessel => vessel.Id.Value,
                thing
            ),
            Thing.Animal => Listed(Living, animal => animal.Id.Value, thing),
            Thing.Female => Listed(
                Living.Where(animal => animal.Sex is not Sex.Male),
                animal => animal.Id.Value,
                thing
            ),
            Thing.Brood => Listed(_house.Broods.Reverse(), brood => brood.Id.Value, thing),
            Thing.Run => Listed(
                _house.Runs.Reverse().OrderBy(run => run.Ended is not null),
                run => run.Id.Value,
                thing
            ),
            Thing.Cohort => Listed(_house.Cohorts.Reverse(), cohort => cohort.Id.Value, thing),
            Thing.Instrument => Listed(_house.Instruments, instrument => instrument.Id.Value, thing),
            _ => [.. Collections.Reverse().Take(12).Select(made => (made.Key.ToString(), made.Value))],
        };

    /// <summary>The name of a thing by the text of its identity.</summary>
    public string Of(Thing thing, string id) =>
        Guid.TryParse(id, out var known) ? Of(thing, known) : _words["name.unknown"];

    public string Of(Thing thing, Guid id) =>
        thing switch
        {
            Thing.Vessel => _house.Vessel(new(id)).Name,
            Thing.Animal or Thing.Female => _house.Animal(new(id)).Name,
            Thing.Brood => BroodName(new(id)),
            Thing.Run => _house.Run(new(id)).Name,
            Thing.Instrument => _house.Instrument(new(id)).Description?.Name,
            Thing.Cohort => _house.Cohort(new(id)) is { Crossed: { } crossed } cohort
                ? _words[
                    "name.cohort",
                    cohort.Brood is { } brood
                        ? BroodName(brood) ?? _words["name.unknown"]
                        : _words["name.unknown"],
                    _formats.Moment(crossed.Latest)
                ]
                : null,
            _ => Collections.GetValueOrDefault(id),
        } ?? _words["name.unknown"];

    private IEnumerable<Animal> Living => _house.Animals.Where(animal => animal.Died is null);

    private IReadOnlyDictionary<Guid, string> Collections =>
        _collections ??= _house
            .Account.Occurrences.Where(occurrence => occurrence.Fact is Domain.Larvae.CollectionMade)
            .Select(occurrence => (occurrence, Made: (Domain.Larvae.CollectionMade)occurrence.Fact))
            .GroupBy(made => made.Made.Collection.Value)
            .ToDictionary(
                made => made.Key,
                made =>
                    made.Last().Made.Number is { } number
                        ? _words[
                            "name.collection.number",
                            _formats.Moment(made.Last().occurrence.Happened.Latest),
                            number
                        ]
                        : _words["name.collection", _formats.Moment(made.Last().occurrence.Happened.Latest)]
            );

    private string? BroodName(BroodId id) =>
        _house.Brood(id) is var brood && brood.Name is { } name ? name
        : brood.Animal is { } animal && _house.Animal(animal).Name is { } mother
            ? _words["name.brood.of", mother]
        : null;

    private IReadOnlyList<(string, string)> Listed<T>(IEnumerable<T> things, Func<T, Guid> id, Thing thing) =>
        [.. things.Select(it => (id(it).ToString(), Of(thing, id(it))))];
}
