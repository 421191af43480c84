using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Imaging.Pulses;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>The share of larvae that moved.</summary>
internal sealed record LookSwimAnswer(
    int Moved,
    int Seen,
    PointsJson MovedPercent,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>How many of the larvae in a burst moved.</summary>
internal static class LookSwimVerb
{
    public static VerbCommand Make()
    {
        var files = Slot.ManyWords("PICTURE", "Three to ten frames of a burst, or a folder with them.");
        var seen = Slot.Option(
            "--seen",
            "How many larvae lie in the picture, moving or not, counted by eye: the program cannot tell a larva that lies still from dirt.",
            "COUNT"
        );
        var writing = new MeasuredWriting();
        return new(
            "swim",
            "Share of the larvae in a burst that moved, with how sure it is.",
            ["look swim frames --seen 60", "look swim frames --seen 60 --vessel \"Jar A\" --write"],
            [files, seen, .. writing.All],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var isWritten = writing.IsAsked(said);
                var number = said.Count(seen);
                if (number is null or < 1)
                {
                    said.Add(new Remark("look-swim-needs-seen"));
                }

                var paths = PicturesRead.Find(said, files);
                var pictures =
                    said.Wrong.Count == 0
                        ? await PicturesRead.OpenAllAsync(said, paths, sitting.Cancellation)
                        : null;
                if (pictures is null)
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                new LookProgress(sitting).Say("Counting what moves.");
                var counted =
                    pictures.Count == 1
                        ? Parsed<PicturesCounted>.No("look-swim-needs-burst")
                        : PicturesCounted.Of(
                            [.. pictures.Select(picture => picture.ToGrey())],
                            [.. pictures.Select(picture => picture.Shape)],
                            MachineHands.All
                        );
                var share = counted.Succeeded
                    ? Swimming.Share(counted.Value.Marks.Count, number!.Value)
                    : Parsed<Interval>.No(counted.Reason);
                if (!share.Succeeded)
                {
                    return sitting.Refuse([share.Reason], await sitting.SayingAsync());
                }

                if (!isWritten || !sitting.Json)
                {
                    Tell(
                        sitting,
                        await sitting.SayingAsync(),
                        counted.Value.Marks.Count,
                        number!.Value,
                        share.Value
                    );
                }

                return !isWritten
                    ? ExitCode.Done
                    : await writing.WriteAsync(
                        sitting,
                        said,
                        MeasuredWriting.Nowhere with
                        {
                            SwimmingPercent = [MeasuredValue.Of(share.Value)],
                        }
                    );
            }
        );
    }

    private static void Tell(Sitting sitting, Saying saying, int moved, int seen, Interval share) =>
        sitting.Answer(
            new LookSwimAnswer(
                moved,
                seen,
                PointsJson.Of(share),
                [saying.Json(new Remark("swimming-few-move-is-not-few-live"))]
            ),
            CliJson.Default.LookSwimAnswer,
            page =>
            {
                page.Facts(
                    ("Moved", LedgerVerb.Points(share, "percent")),
                    ("Counted", $"{moved} that moved, of {seen} seen")
                );
                page.Line(saying.Of(new Remark("swimming-few-move-is-not-few-live")));
            }
        );
}
