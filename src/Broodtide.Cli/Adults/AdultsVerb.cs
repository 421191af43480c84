using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Adults;

/// <summary>One adult in the list.</summary>
internal sealed record AdultJson(string Name, string? Sex, string? Place, int Clutches, AgainJson? Again);

/// <summary>What to look at to know a species or a sex, or what cannot be told.</summary>
internal sealed record LookJson(string Code, string About, string Is, string? Note, string Provenance);

/// <summary>A species of the house: what it and its sexes are known by, how long new ones stay apart.</summary>
internal sealed record AdultSpeciesJson(
    string Species,
    RemarkJson? NewOnes,
    IReadOnlyList<LookJson> Identity,
    IReadOnlyList<LookJson> Sexing
);

/// <summary>The adults of the house, and every species among them.</summary>
internal sealed record AdultsAnswer(
    IReadOnlyList<AdultJson> Adults,
    IReadOnlyList<AdultSpeciesJson> Species,
    RemarkJson Condition
);

/// <summary>Tells the adults: who may carry when, what species and sex are known by.</summary>
internal static class AdultsVerb
{
    public static Command Make() =>
        new VerbCommand(
            "adults",
            "The adults of the house: sexes, who may carry again and when, what species and sex are known by.",
            ["adults", "adults --json"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var naming = new Naming(outlook.House);
                var alive = outlook
                    .House.Animals.Where(animal => animal.Died is null && animal.Name is not null)
                    .ToList();
                var species = alive
                    .Select(animal => outlook.Profiles.Of(animal.Species))
                    .DefaultIfEmpty(outlook.Profiles.Of(null as string))
                    .DistinctBy(profile => profile.Code, StringComparer.Ordinal);
                var adults = alive
                    .Select(animal =>
                        (
                            Animal: animal,
                            Again: animal.Sex is Sex.Female ? outlook.CarryAgainOf(animal) : null
                        )
                    )
                    .ToList();
                var answer = new AdultsAnswer(
                    [
                        .. adults.Select(pair => new AdultJson(
                            pair.Animal.Name!,
                            pair.Animal.Sex is { } sex ? EnumWords.Of(sex) : null,
                            pair.Animal.PlaceAt(outlook.Now) is { } place
                                ? naming.NameOf(Subject.Of(place))
                                : null,
                            pair.Animal.Broods.Count,
                            pair.Again is { } again ? AnimalVerb.Again(again, saying) : null
                        )),
                    ],
                    [.. species.Select(profile => Of(profile, saying))],
                    saying.Json(new Remark("adult-condition"))
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.AdultsAnswer,
                    page =>
                    {
                        page.Heading("Adults")
                            .Table(
                                ["name", "sex", "lives in", "clutches", "may carry again"],
                                adults.Zip(
                                    answer.Adults,
                                    (pair, told) =>
                                        (IReadOnlyList<string>)
                                            [
                                                told.Name,
                                                told.Sex ?? "not known",
                                                told.Place ?? "?",
                                                $"{told.Clutches}",
                                                pair.Again is { } again
                                                    ? AnimalVerb.AgainWords(again, saying)
                                                    : "",
                                            ]
                                )
                            );
                        foreach (var told in answer.Species)
                        {
                            var among = answer.Species.Count > 1 ? $" {told.Species}" : "";
                            Print(page, $"Is it {told.Species}?", told.Identity);
                            Print(page, $"Female or male?{among}", told.Sexing);
                            if (told.NewOnes is { } apart)
                            {
                                page.Line().Heading($"New ones{among}").Line(apart.Words);
                            }
                        }

                        page.Line().Heading("Before they breed").Line(answer.Condition.Words);
                    }
                );
            }
        );

    private static AdultSpeciesJson Of(SpeciesProfile profile, Saying saying) =>
        new(
            profile.ScientificName,
            profile.Find(AdultQuantityCodes.Quarantine) is { Low: { } least, High: { } most }
                ? saying.Json(
                    new Remark("adult-new-ones-days", new("daysLeast", least), new("daysMost", most))
                )
                : null,
            Looks(profile, fact => fact.Code.StartsWith("identity", StringComparison.Ordinal)),
            Looks(
                profile,
                fact =>
                    fact.Code is "sexing" || fact.Code.StartsWith("second-spot-row", StringComparison.Ordinal)
            )
        );

    private static IReadOnlyList<LookJson> Looks(SpeciesProfile profile, Func<ProfileFact, bool> which) =>
        [
            .. profile
                .Facts.Where(which)
                .Select(fact => new LookJson(
                    fact.Code,
                    fact.Meaning,
                    fact.Is.Replace('-', ' '),
                    fact.Note,
                    EnumWords.Of(fact.Provenance)
                )),
        ];

    private static void Print(Page page, string heading, IReadOnlyList<LookJson> looks)
    {
        if (looks.Count == 0)
        {
            return;
        }

        page.Line().Heading(heading);
        foreach (var look in looks)
        {
            page.Line($"{look.About}: {look.Is} [{look.Provenance}]");
            if (look.Note is { } note)
            {
                page.Line($"    {note}");
            }
        }
    }
}
