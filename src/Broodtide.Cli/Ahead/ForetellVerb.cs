using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Recording;

namespace Broodtide.Cli.Ahead;

/// <summary>Writes today's forecasts down, so that they can be scored later.</summary>
internal static class ForetellVerb
{
    public static Command Make() =>
        new VerbCommand(
            "foretell",
            "Write down what is foretold today, once a day for each run and each measured water, so that it can be scored against what happens.",
            ["foretell"],
            [],
            async sitting =>
            {
                var version = typeof(ForetellVerb).Assembly.GetName().Version is { } number
                    ? number.ToString(3)
                    : "0";
                var outlook = await sitting.LookAsync();
                foreach (var vessel in outlook.WatersTold)
                {
                    _ = outlook.SafetyOf(vessel);
                }

                List<Fact> forecasts =
                [
                    .. Foretelling.Unwritten(outlook, $"broodtide {version}"),
                    .. Foretelling.UnwrittenOfWater(outlook, $"broodtide {version}"),
                ];
                if (forecasts.Count == 0)
                {
                    return sitting.Answer(
                        new WrittenAnswer([], []),
                        CliJson.Default.WrittenAnswer,
                        page =>
                            page.Line(
                                "Nothing to write: today's forecasts are in the journal, or no brood is carried and no water was measured."
                            )
                    );
                }

                // The software is the author of what it writes itself.
                var keeper = new Keeper(
                    new Author("broodtide", version),
                    sitting.Surroundings.Clock,
                    sitting.Zone,
                    sitting.Surroundings.NewId
                );
                return await Entries.AppendAsync(
                    sitting,
                    [.. forecasts.Select(forecast => keeper.Write(forecast, Happened.At(sitting.Now)))]
                );
            }
        );
}
