using Broodtide.Cli.Door;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Species;

/// <summary>Whose numbers apply to a sum that is about no brood of the house.</summary>
internal static class SpeciesSlot
{
    public static Slot Make() =>
        Slot.Option(
            "--species",
            "Whose numbers apply, by code or scientific name; the only species of the house if left out.",
            "SPECIES"
        );

    /// <summary>The profile, the keeper's choices included; a name nobody has a profile of is complained of.</summary>
    public static SpeciesProfile Read(Said said, Slot slot, HouseProfiles profiles)
    {
        var typed = said.Text(slot);
        if (typed is not null && SpeciesProfiles.Find(typed) is null)
        {
            said.Add(
                new Remark(
                    "name-unknown",
                    new("sort", "species"),
                    new("typed", typed),
                    new("known", string.Join(", ", SpeciesProfiles.Known.Select(species => species.Code)))
                )
            );
        }

        return profiles.Of(typed);
    }
}
