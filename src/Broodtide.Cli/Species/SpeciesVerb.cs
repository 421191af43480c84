using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Species;

/// <summary>One number of a profile.</summary>
internal sealed record QuantityJson(
    string Code,
    string Unit,
    double? Value,
    double? Low,
    double? High,
    string Provenance,
    string? BorrowedFrom,
    string Source,
    string Meaning,
    bool Chosen,
    double? OriginalValue,
    double? OriginalLow,
    double? OriginalHigh,
    string? ChosenBecause,
    bool ChosenOutsidePublished
);

/// <summary>A profile.</summary>
internal sealed record SpeciesAnswer(
    string Code,
    string ScientificName,
    IReadOnlyList<QuantityJson> Quantities
);

/// <summary>What is known of a species, and the keeper's own values.</summary>
internal static class SpeciesVerb
{
    public static Command Make()
    {
        var species = new Command(
            "species",
            "What is known of a species, each number with its source; and your own values."
        );
        species.Subcommands.Add(Show());
        species.Subcommands.Add(SpeciesLearnedVerb.Learned());
        species.Subcommands.Add(SpeciesLearnedVerb.Learn());
        species.Subcommands.Add(SpeciesChoiceVerbs.Choose());
        species.Subcommands.Add(SpeciesChoiceVerbs.Undo());
        return species;
    }

    private static VerbCommand Show()
    {
        var name = Slot.Word(
            "SPECIES",
            $"Code or scientific name, such as {SpeciesProfiles.ReferenceSpecies.Code}."
        );
        var code = Slot.MaybeWord("QUANTITY", "Only this number, with its source and reports.");
        return new(
            "show",
            "Show the numbers of a species, with your own values on top.",
            [
                $"species show {SpeciesProfiles.ReferenceSpecies.Code}",
                $"species show \"{SpeciesProfiles.ReferenceSpecies.ScientificName}\" larval-salinity-target --json",
            ],
            [name, code],
            async sitting =>
            {
                var (profile, quantity, no) = await FindAsync(sitting, name, code);
                if (no is not null || profile is null)
                {
                    return sitting.NotUnderstood([no!]);
                }

                IReadOnlyList<ProfileQuantity> shown = quantity is null
                    ? [.. profile.Quantities]
                    : [quantity];
                return sitting.Answer(
                    new SpeciesAnswer(profile.Code, profile.ScientificName, [.. shown.Select(Json)]),
                    CliJson.Default.SpeciesAnswer,
                    page =>
                    {
                        page.Heading(profile.ScientificName);
                        if (quantity is not null)
                        {
                            Whole(page, quantity);
                            return;
                        }

                        page.Table(
                            ["quantity", "value", "range", "unit", "provenance"],
                            shown.Select(q =>
                                (IReadOnlyList<string>)
                                    [
                                        q.Code,
                                        q.Value is { } value ? Saying.Number(value) : "",
                                        Range(q.Current),
                                        UnitNames.OfProfile(q.Unit.Code),
                                        EnumWords.Plain(q.Provenance) + (q.Chosen is null ? "" : ", yours"),
                                    ]
                            )
                        );
                    }
                );
            }
        );
    }

    internal static async Task<(SpeciesProfile? Profile, ProfileQuantity? Quantity, Remark? No)> FindAsync(
        Sitting sitting,
        Slot name,
        Slot code
    )
    {
        var typed = name.Text(sitting.Parse);
        if (SpeciesProfiles.Find(typed) is not { } known)
        {
            return (
                null,
                null,
                new Remark(
                    "name-unknown",
                    new("sort", "species"),
                    new("typed", typed ?? ""),
                    new("known", string.Join(", ", SpeciesProfiles.Known.Select(species => species.Code)))
                )
            );
        }

        var profile = (await sitting.LookAsync()).Profiles.Of(known.Code);
        if (code.Text(sitting.Parse) is not { } wanted)
        {
            return (profile, null, null);
        }

        return profile.Find(wanted) is { } quantity
            ? (profile, quantity, null)
            : (
                profile,
                null,
                new Remark(
                    "name-unknown",
                    new("sort", "quantity"),
                    new("typed", wanted),
                    new("known", string.Join(", ", profile.Quantities.Select(q => q.Code)))
                )
            );
    }

    private static QuantityJson Json(ProfileQuantity quantity) =>
        new(
            quantity.Code,
            quantity.Unit.Code,
            quantity.Value,
            quantity.Low,
            quantity.High,
            EnumWords.Of(quantity.Provenance),
            quantity.BorrowedFrom,
            quantity.Source,
            quantity.Meaning,
            quantity.Chosen is not null,
            quantity.Original.Value,
            quantity.Original.Low,
            quantity.Original.High,
            quantity.Chosen?.Choice.Reason,
            quantity.Chosen?.OutsidePublished ?? false
        );

    private static void Whole(Page page, ProfileQuantity quantity)
    {
        var unit = UnitNames.OfProfile(quantity.Unit.Code);
        page.Facts(
            (quantity.Code, quantity.Meaning),
            ("Value", quantity.Value is { } value ? $"{Saying.Number(value)} {unit}" : null),
            ("Range", Range(quantity.Current) is { Length: > 0 } range ? $"{range} {unit}" : null),
            ("Yours because", quantity.Chosen?.Choice.Reason),
            (
                "Mind",
                quantity.Chosen is { OutsidePublished: true }
                    ? "your value lies outside the published range"
                    : null
            ),
            (
                "Original",
                quantity.Chosen is null
                    ? null
                    : $"{(quantity.Original.Value is { } o ? Saying.Number(o) : "")} {Range(quantity.Original)}".Trim()
            ),
            (
                "Provenance",
                EnumWords.Plain(quantity.Provenance)
                    + (quantity.BorrowedFrom is { } from ? $" from {from}" : "")
            ),
            ("Source", quantity.Source),
            ("Note", quantity.Note)
        );
        foreach (var report in quantity.Reports)
        {
            page.Line(
                $"  {(report.Amount.Value is { } v ? Saying.Number(v) : Range(report.Amount))} {unit}"
                    + $"{(report.Condition is { } condition ? $", {condition}" : "")}: {report.Source}"
            );
        }
    }

    private static string Range(ProfileAmount amount) =>
        (amount.Low, amount.High) switch
        {
            ({ } low, { } high) => $"{Saying.Number(low)} to {Saying.Number(high)}",
            ({ } low, null) => $"at least {Saying.Number(low)}",
            (null, { } high) => $"at most {Saying.Number(high)}",
            _ => "",
        };
}
