using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Adults;

namespace Broodtide.Cli.Adults;

/// <summary>A female's part of one gathering.</summary>
internal sealed record ShareJson(string Brood, PointsJson Share, double ExpectedShare, PointsJson? Larvae);

/// <summary>One gathering.</summary>
internal sealed record SharedGatheringJson(
    string When,
    string WrittenFor,
    int? Larvae,
    IReadOnlyList<ShareJson> Parts
);

/// <summary>The mixture in a box.</summary>
internal sealed record SharesAnswer(
    string Box,
    bool Shared,
    IReadOnlyList<SharedGatheringJson> Gatherings,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Tells whose larvae the gatherings of a shared box hold.</summary>
internal static class SharesVerb
{
    public static Command Make()
    {
        var box = Slot.Word("BOX", "The hatching box.");
        return new VerbCommand(
            "shares",
            "Two females in one box: whose larvae its gatherings hold, as shares with an interval.",
            ["shares \"Hatching box\"", "shares \"Hatching box\" --json"],
            [box],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(box);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var mixed = outlook.MixedIn(id);
                var naming = new Naming(outlook.House);
                var answer = new SharesAnswer(
                    said.TheText(box),
                    mixed is not null,
                    [.. (mixed?.Gatherings ?? []).Select(one => Json(one, naming))],
                    [
                        .. (
                            mixed?.Remarks ?? [new Remark("mixed-not-shared", new Argument("vessel", id))]
                        ).Select(saying.Json),
                    ]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.SharesAnswer,
                    page =>
                    {
                        foreach (var one in mixed?.Gatherings ?? [])
                        {
                            page.Heading(
                                $"{saying.Time(one.When)}: {(one.Number is { } number ? $"{number}" : "some")} larvae, written for {naming.NameOf(Subject.Of(one.Written))}"
                            );
                            page.Table(
                                ["brood", "expected", "nine chances in ten"],
                                one.Parts.Select(part =>
                                    (IReadOnlyList<string>)
                                        [
                                            naming.NameOf(Subject.Of(part.Brood)),
                                            Saying.Percent(part.Expected),
                                            $"{Saying.Percent(part.Share.Low)} to {Saying.Percent(part.Share.High)}",
                                        ]
                                )
                            );
                        }

                        foreach (var remark in answer.Remarks)
                        {
                            page.Line(remark.Words);
                        }
                    }
                );
            }
        );
    }

    private static SharedGatheringJson Json(MixedGathering one, Naming naming) =>
        new(
            Saying.Iso(one.When),
            naming.NameOf(Subject.Of(one.Written)),
            one.Number,
            [
                .. one.Parts.Select(part => new ShareJson(
                    naming.NameOf(Subject.Of(part.Brood)),
                    PointsJson.Of(part.Share),
                    part.Expected,
                    part.Larvae is { } larvae ? PointsJson.Of(larvae) : null
                )),
            ]
        );
}
