using Broodtide.Units;

namespace Broodtide.Workbench.Species;

/// <summary>Says where an answer rests on the numbers of a relative: nobody is to take them for the species' own.</summary>
public static class BorrowedNumbers
{
    /// <summary>The numbers a hatch is told from.</summary>
    public static IReadOnlyList<string> OfEggs { get; } = [QuantityCodes.EmbryoDegreeDays];

    /// <summary>The numbers larvae are told from.</summary>
    public static IReadOnlyList<string> OfLarvae { get; } =
    [QuantityCodes.LarvalDays, QuantityCodes.LarvalTemperatureLosses];

    /// <summary>The numbers a crossing and the water of larvae are told from.</summary>
    public static IReadOnlyList<string> OfWater { get; } =
    [QuantityCodes.LarvalSalinity, QuantityCodes.LarvaFreshWater, QuantityCodes.BrackishSalinity];

    /// <summary>One remark for each relative that numbers were taken from; none where the keeper chose own ones.</summary>
    /// <param name="profile">The species.</param>
    /// <param name="codes">The numbers an answer rests on.</param>
    public static IEnumerable<Remark> Of(SpeciesProfile profile, IEnumerable<string> codes) =>
        codes
            .Select(profile.Find)
            .OfType<ProfileQuantity>()
            .Where(quantity => quantity is { Provenance: Provenance.Borrowed, Chosen: null })
            .GroupBy(quantity => quantity.BorrowedFrom!, StringComparer.Ordinal)
            .Select(group => new Remark(
                "numbers-borrowed",
                new("species", profile.ScientificName),
                new("relative", group.Key),
                new("numbers", string.Join(", ", group.Select(quantity => quantity.Code)))
            ));
}
