using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Cli.Journal;

/// <summary>One thing by its name.</summary>
internal sealed record NamedThing(string Sort, string Name, string Id, string What);

/// <summary>Everything that has a name.</summary>
internal sealed record NamesAnswer(IReadOnlyList<NamedThing> Things);

/// <summary>Lists who and what is in the house.</summary>
internal static class NamesVerb
{
    public static Command Make() =>
        new VerbCommand(
            "names",
            "List the animals, broods, cohorts, vessels, runs and instruments by their names.",
            ["names"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var answer = new NamesAnswer([.. Things(outlook.House, await sitting.SayingAsync())]);
                return sitting.Answer(
                    answer,
                    CliJson.Default.NamesAnswer,
                    page =>
                        page.Table(
                            ["sort", "name", "what"],
                            answer.Things.Select(thing =>
                                (IReadOnlyList<string>)[thing.Sort, thing.Name, thing.What]
                            )
                        )
                );
            }
        );

    private static IEnumerable<NamedThing> Things(House house, Saying saying)
    {
        var naming = new Naming(house);
        foreach (var animal in house.Animals)
        {
            yield return Of(
                "animal",
                naming,
                Subject.Of(animal.Id),
                Join(
                    animal.Sex is { } sex ? EnumWords.Plain(sex) : null,
                    animal.Species,
                    animal.Died is { } died ? $"died {saying.Time(died)}" : null
                )
            );
        }

        foreach (var brood in house.Broods)
        {
            yield return Of(
                "brood",
                naming,
                Subject.Of(brood.Id),
                Join(
                    brood.Animal is { } mother ? $"of {naming.NameOf(Subject.Of(mother))}" : null,
                    brood.FirstSeenBerried is { } seen ? $"first seen {saying.Time(seen)}" : null
                )
            );
        }

        foreach (var cohort in house.Cohorts)
        {
            yield return Of(
                "cohort",
                naming,
                Subject.Of(cohort.Id),
                Join(
                    cohort.Crossed is { } crossed ? $"crossed {saying.Time(crossed)}" : null,
                    cohort.Number is { } number ? $"{number} larvae" : null
                )
            );
        }

        foreach (var vessel in house.Vessels)
        {
            yield return Of(
                "vessel",
                naming,
                Subject.Of(vessel.Id),
                Join(
                    vessel.Role is { } role ? EnumWords.Plain(role) : null,
                    vessel.Capacity is { } capacity ? UnitNames.Litres(capacity.Litres) : null,
                    vessel.Standing is null ? "empty" : null
                )
            );
        }

        foreach (var run in house.Runs)
        {
            yield return Of(
                "run",
                naming,
                Subject.Of(run.Id),
                Join(
                    run.Brood is { } brood ? $"of brood {naming.NameOf(Subject.Of(brood))}" : null,
                    run.Ended is { } ended ? $"ended: {EnumWords.Plain(ended.How.End)}" : null
                )
            );
        }

        foreach (var instrument in house.Instruments)
        {
            yield return Of(
                "instrument",
                naming,
                Subject.Of(instrument.Id),
                instrument.Description is { } described
                    ? Join(
                        EnumWords.Plain(described.Kind),
                        described.Scale is { } scale ? UnitNames.Of(scale) : null
                    )
                    : ""
            );
        }
    }

    private static NamedThing Of(string sort, Naming naming, Subject subject, string what) =>
        new(sort, naming.NameOf(subject), subject.Id.ToString(), what);

    private static string Join(params ReadOnlySpan<string?> parts)
    {
        var said = new List<string>();
        foreach (var part in parts)
        {
            if (part is not null)
            {
                said.Add(part);
            }
        }

        return string.Join(", ", said);
    }
}
