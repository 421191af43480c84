using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;

namespace Broodtide.Phone.Language;

/// <summary>What things are called: as the keeper calls them, else by what they are.</summary>
internal sealed class Naming(Words words)
{
    public string Of(House house, VesselId vessel) => house.Vessel(vessel).Name ?? words["name.vessel"];

    public string Of(House house, AnimalId animal) => house.Animal(animal).Name ?? words["name.animal"];

    public string Of(House house, InstrumentId instrument) =>
        house.Instrument(instrument).Description?.Name ?? words["name.instrument"];

    public string Of(House house, BroodId brood) =>
        house.RunOf(brood)?.Name ?? house.Brood(brood).Name ?? words["name.brood"];

    public string Of(Run run) => run.Name ?? words["name.run"];

    /// <summary>The female of a brood.</summary>
    public string FemaleOf(House house, Brood brood) =>
        brood.Animal is { } animal ? Of(house, animal) : words["name.female"];

    public string Of(House house, Subject subject) =>
        subject.Kind switch
        {
            SubjectKind.Vessel => Of(house, new VesselId(subject.Id)),
            SubjectKind.Brood => Of(house, new BroodId(subject.Id)),
            SubjectKind.Animal => Of(house, new AnimalId(subject.Id)),
            SubjectKind.Instrument => Of(house, new InstrumentId(subject.Id)),
            SubjectKind.Run => Of(house.Run(new RunId(subject.Id))),
            _ => words["name.house"],
        };
}
