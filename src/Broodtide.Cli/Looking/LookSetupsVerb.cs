using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>One picture of a known number.</summary>
internal sealed record SetupPointJson(string At, double KnownLarvae, double CountedLarvae, string KnownBy);

/// <summary>One container under one lamp, and what it teaches.</summary>
internal sealed record SetupJson(
    string Name,
    bool Calibrated,
    double LargestKnownLarvae,
    double? CountedOfTwenty,
    IReadOnlyList<SetupPointJson> Points,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Every container and lamp.</summary>
internal sealed record LookSetupsAnswer(IReadOnlyList<SetupJson> Setups);

/// <summary>The keeper's containers and lamps, and what they teach of counts in pictures.</summary>
internal static class LookSetupsVerb
{
    // What a keeper reads the share from: a number that every set-up may have been shown.
    private const int Twenty = 20;

    public static VerbCommand Make()
    {
        var name = Slot.MaybeWord("SETUP", "One container and lamp by your name for it; all if left out.");
        return new(
            "setups",
            "List containers and lamps with the known numbers that were photographed in them, and what those teach of a count.",
            ["look setups", "look setups --json"],
            [name],
            async sitting =>
            {
                var house = (await sitting.LookAsync()).House;
                var saying = await sitting.SayingAsync();
                var asked = new Said(sitting, house).Text(name);
                var setups = asked is null
                    ? SetupCalibrations.All(house)
                    : [SetupCalibrations.Of(house, asked)];
                var answer = new LookSetupsAnswer([.. setups.Select(setup => Json(setup, saying))]);
                return sitting.Answer(
                    answer,
                    CliJson.Default.LookSetupsAnswer,
                    page =>
                    {
                        foreach (var setup in answer.Setups)
                        {
                            Say(page, setup);
                        }

                        if (answer.Setups.Count == 0)
                        {
                            page.Line("No count in pictures names a container and lamp yet (--setup).");
                        }
                    }
                );
            }
        );
    }

    private static void Say(Page page, SetupJson setup)
    {
        page.Heading(setup.Name);
        if (setup.CountedOfTwenty is { } share)
        {
            page.Line(
                $"Of each larva {Saying.Percent(share)} are counted; photographed up to {Saying.Number(setup.LargestKnownLarvae)}."
            );
        }

        foreach (var remark in setup.Remarks)
        {
            page.Line(remark.Words);
        }

        if (setup.Points.Count > 0)
        {
            page.Table(
                ["when", "known", "counted", "known by"],
                setup.Points.Select(point =>
                    (IReadOnlyList<string>)
                        [
                            point.At,
                            Saying.Number(point.KnownLarvae),
                            Saying.Number(point.CountedLarvae),
                            point.KnownBy,
                        ]
                )
            );
        }

        page.Line();
    }

    private static SetupJson Json(SetupCalibration setup, Saying saying) =>
        new(
            setup.Name,
            setup.Calibration.IsOwn,
            setup.Calibration.LargestKnown,
            setup.Calibration.CountedOfEach(Twenty),
            [
                .. setup.Points.Select(point => new SetupPointJson(
                    Saying.Iso(point.Told.Happened.Middle),
                    Math.Round(point.Point.Known, 1),
                    point.Point.Counted,
                    EnumWords.Plain(point.By)
                )),
            ],
            [.. setup.Calibration.Remarks(0).Select(saying.Json)]
        );
}
