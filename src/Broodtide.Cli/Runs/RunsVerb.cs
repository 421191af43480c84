using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;

namespace Broodtide.Cli.Runs;

/// <summary>One run in a line.</summary>
internal sealed record RunLineJson(
    string Name,
    string Id,
    string? Brood,
    string? Species,
    string? Started,
    string State
);

/// <summary>All runs.</summary>
internal sealed record RunsAnswer(IReadOnlyList<RunLineJson> Runs);

/// <summary>Lists the runs.</summary>
internal static class RunsVerb
{
    public static Command Make() =>
        new VerbCommand(
            "runs",
            "List the runs, one brood carried through each.",
            ["runs"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var naming = new Naming(outlook.House);
                var answer = new RunsAnswer([
                    .. outlook.House.Runs.Select(run => new RunLineJson(
                        naming.NameOf(Subject.Of(run.Id)),
                        run.Id.Value.ToString(),
                        run.Brood is { } brood ? naming.NameOf(Subject.Of(brood)) : null,
                        run.Species,
                        run.Started is { } started ? Saying.Iso(started.Earliest) : null,
                        RunState.Of(outlook.House, run)
                    )),
                ]);
                var saying = await sitting.SayingAsync();
                return sitting.Answer(
                    answer,
                    CliJson.Default.RunsAnswer,
                    page =>
                        page.Table(
                            ["run", "brood", "started", "state"],
                            answer
                                .Runs.Zip(outlook.House.Runs)
                                .Select(pair =>
                                    (IReadOnlyList<string>)
                                        [
                                            pair.First.Name,
                                            pair.First.Brood ?? "",
                                            pair.Second.Started is { } started ? saying.Time(started) : "",
                                            pair.First.State.Replace('-', ' '),
                                        ]
                                )
                        )
                );
            }
        );
}

/// <summary>In which phase a run is, as a word.</summary>
internal static class RunState
{
    public static string Of(House house, Run run)
    {
        if (run.Ended is { } ended)
        {
            return ended.How.End is RunEnd.Home ? "home" : "given-up";
        }

        if (run.Brood is not { } id)
        {
            return "without-brood";
        }

        var brood = house.Brood(id);
        return brood.Crossings.Count > 0 ? "in-the-sea"
            : brood.FirstLarvae is not null ? "hatching"
            : brood.Dropped is not null ? "eggs-dropped"
            : "carried";
    }
}
