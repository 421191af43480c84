using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench;

/// <summary>Whose numbers apply to what in a house, the keeper's choices on top.</summary>
public sealed class HouseProfiles
{
    private readonly House _house;
    private readonly Instant _now;
    private readonly Dictionary<string, SpeciesProfile> _chosen = new(StringComparer.Ordinal);
    private readonly ILookup<string, ProfileChoice> _choices;
    private bool _looked;
    private SpeciesProfile? _only;

    /// <summary>The profiles of a house.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="now">The present: who lives where.</param>
    public HouseProfiles(House house, Instant now)
    {
        _house = house;
        _now = now;
        _choices = house
            .Account.About(Subject.House)
            .Where(occurrence => occurrence.Fact is ProfileValueChosen)
            .Select(occurrence => (Fact: (ProfileValueChosen)occurrence.Fact, Occurrence: occurrence))
            .ToLookup(
                pair => SpeciesProfiles.Find(pair.Fact.Species)?.Code ?? "",
                pair => new ProfileChoice(
                    pair.Fact.Quantity,
                    pair.Fact.Value,
                    pair.Fact.Low,
                    pair.Fact.High,
                    pair.Fact.Unit,
                    pair.Fact.Reason ?? "",
                    pair.Occurrence.Author.Name,
                    pair.Occurrence.Happened.Latest
                ),
                StringComparer.Ordinal
            );
    }

    /// <summary>
    /// The profile of a species. Where none is named, that of the only one the house names; the reference species where
    /// it names none or several, or where nobody has a profile of the name (which is told as a conflict).
    /// </summary>
    public SpeciesProfile Of(string? species)
    {
        var profile =
            SpeciesProfiles.Find(species)
            ?? (string.IsNullOrWhiteSpace(species) ? OfHouse() : null)
            ?? SpeciesProfiles.Reference;
        if (!_chosen.TryGetValue(profile.Code, out var chosen))
        {
            _chosen[profile.Code] = chosen = profile.With(_choices[profile.Code]);
        }

        return chosen;
    }

    /// <summary>The profile of a brood: of its run, else of its mother.</summary>
    public SpeciesProfile Of(BroodId brood) => Of(SpeciesOf(brood));

    /// <summary>The profile of a vessel: its own species, else that of the larvae in it.</summary>
    public SpeciesProfile Of(Vessel vessel) =>
        Of(
            vessel.Species
                ?? _house
                    .Cohorts.Where(cohort =>
                        cohort.Brood is not null
                        && UnderWay.VesselsOf(_house, cohort, _now).Contains(vessel.Id)
                    )
                    .Select(cohort => SpeciesOf(cohort.Brood!.Value))
                    .FirstOrDefault()
        );

    /// <summary>The band of a vessel for larvae; none for any other, whose salinity is not minded.</summary>
    public SalinityBand? BandOf(Vessel vessel)
    {
        if (vessel.Role is not VesselRole.LarvalVessel || WayHome.Began(vessel) is not null)
        {
            return null;
        }

        var profile = Of(vessel);
        if (!profile.SalinityFollowsStage || StagesLikely.In(_house, vessel, profile, _now) is not { } stages)
        {
            // Once settled ones were seen the water may come down to what zoeae that are not ready complete in.
            var (band, least) = (profile.FirstSalinityBand(), profile.LarvalSalinityCompleting.Low);
            return WayHome.SettledSeen(vessel) && least < band.Lower
                ? SalinityBand.From(least, band.Target, band.Upper)
                : band;
        }

        // From what the youngest need to what the oldest bear; brought back to what the youngest need.
        var (young, old) = (profile.SalinityAt(stages.Youngest), profile.SalinityAt(stages.Oldest));
        return SalinityBand.From(
            young.Band.Low,
            young.Target,
            old.Band.High > young.Band.High ? old.Band.High : young.Band.High
        );
    }

    /// <summary>Choices that could not stand, and species nobody has a profile of.</summary>
    public IReadOnlyList<Remark> Conflicts() =>
        [
            .. _choices
                .Where(choices => choices.Key.Length > 0)
                .OrderBy(choices => choices.Key, StringComparer.Ordinal)
                .SelectMany(choices => Of(choices.Key).Conflicts)
                .Select(conflict => new Remark(
                    conflict.Code,
                    new("quantity", conflict.Choice.Code),
                    new("unit", conflict.Choice.Unit),
                    new("when", conflict.Choice.When)
                )),
            .. _choices[""]
                .Select(choice => new Remark(
                    "profile-choice-unknown-species",
                    new("quantity", choice.Code),
                    new("when", choice.When)
                )),
            .. _house
                .Runs.Where(run => run.Species is not null && SpeciesProfiles.Find(run.Species) is null)
                .Select(run => new Remark(
                    "species-without-profile",
                    new("run", run.Id),
                    new("species", run.Species!)
                )),
            .. NamesElsewhere()
                .Where(name => SpeciesProfiles.Find(name) is null)
                .Distinct(StringComparer.OrdinalIgnoreCase)
                .Select(name => new Remark("species-named-without-profile", new Argument("species", name))),
        ];

    private IEnumerable<string> NamesElsewhere() =>
        _house
            .Animals.Select(animal => animal.Species)
            .Concat(_house.Vessels.Select(vessel => vessel.Species))
            .OfType<string>()
            .Where(name => name.Length > 0);

    // Of several nobody can say which is meant.
    private SpeciesProfile? OfHouse()
    {
        if (!_looked)
        {
            _looked = true;
            var named = _house
                .Runs.Select(run => run.Species)
                .OfType<string>()
                .Concat(NamesElsewhere())
                .Select(SpeciesProfiles.Find)
                .OfType<SpeciesProfile>()
                .Distinct()
                .Take(2)
                .ToList();
            _only = named.Count == 1 ? named[0] : null;
        }

        return _only;
    }

    private string? SpeciesOf(BroodId brood) =>
        _house.RunOf(brood)?.Species
        ?? (_house.Brood(brood).Animal is { } animal ? _house.Animal(animal).Species : null);
}
