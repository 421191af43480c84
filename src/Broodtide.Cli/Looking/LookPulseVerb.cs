using Broodtide.Cli.Door;
using Broodtide.Cli.Feeding;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Imaging.Pulses;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>A heart rate.</summary>
internal sealed record LookPulseAnswer(
    int Frames,
    double Seconds,
    PointsJson BeatsPerMinute,
    double ShareExplained,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>The heart rate of a larva from the frames of a clip.</summary>
internal static class LookPulseVerb
{
    private const double UsualRadius = 6;

    public static VerbCommand Make()
    {
        var files = Slot.ManyWords("FRAMES", "The frames of a clip in their order, or a folder with them.");
        var rate = Slot.Option("--fps", "Frames a second of the clip.", "NUMBER");
        var at = Slot.Option("--at", "The middle of the heart, in pixels.", "X,Y");
        var radius = Slot.Option(
            "--radius",
            "Radius of the spot that is watched, pixels; 6 if left out.",
            "PIXELS"
        );
        var writing = new MeasuredWriting();
        return new(
            "pulse",
            "Heart rate from the brightness of a spot over the frames of a clip, with how sure it is. Tried on invented clips only.",
            [
                "look pulse clip --fps 12 --at 20,20",
                "look pulse clip --fps 12 --at 20,20 --vessel \"Jar A\" --write",
            ],
            [files, rate, at, radius, .. writing.All],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var (perSecond, spot) = (
                    FoodText.Number(said, rate, 1, 10_000),
                    LookLengthVerb.Places(said, at)
                );
                var reach = FoodText.Number(said, radius, 1, 1_000) ?? UsualRadius;
                var isWritten = writing.IsAsked(said);
                if (perSecond is null || spot.Count != 1)
                {
                    said.Add(new Remark("look-pulse-needs-rate-and-spot"));
                }

                var paths = PicturesRead.Find(said, files);
                var seen =
                    said.Wrong.Count == 0
                        ? await WatchAsync(
                            said,
                            new LookProgress(sitting),
                            paths,
                            spot[0],
                            reach,
                            sitting.Cancellation
                        )
                        : null;
                if (seen is null)
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                var found = Pulse.Of([.. seen.Select((_, frame) => frame / perSecond!.Value)], seen);
                if (!found.Succeeded)
                {
                    return sitting.Refuse([found.Reason], await sitting.SayingAsync());
                }

                if (!isWritten || !sitting.Json)
                {
                    Tell(
                        sitting,
                        await sitting.SayingAsync(),
                        seen.Count,
                        seen.Count / perSecond!.Value,
                        found.Value
                    );
                }

                return !isWritten
                    ? ExitCode.Done
                    : await writing.WriteAsync(
                        sitting,
                        said,
                        MeasuredWriting.Nowhere with
                        {
                            BeatsPerMinute = [MeasuredValue.Of(found.Value.BeatsPerMinute)],
                        }
                    );
            }
        );
    }

    // One frame is open at a time.
    private static async Task<List<double>?> WatchAsync(
        Said said,
        LookProgress progress,
        IReadOnlyList<string> paths,
        (double X, double Y) spot,
        double radius,
        CancellationToken cancel
    )
    {
        var seen = new List<double>();
        progress.Say("Watching the spot.");
        foreach (var path in paths)
        {
            if (await PicturesRead.OpenAsync(said, path, cancel) is not { } frame)
            {
                return null;
            }

            if (Pulse.Brightness(frame.ToGrey(), frame.Shape, spot, radius) is not { } brightness)
            {
                said.Add(new Remark("look-pulse-spot-outside", new Argument("file", path)));
                return null;
            }

            seen.Add(brightness);
        }

        return seen;
    }

    private static void Tell(Sitting sitting, Saying saying, int frames, double seconds, PulseFound found) =>
        sitting.Answer(
            new LookPulseAnswer(
                frames,
                Math.Round(seconds, 2),
                PointsJson.Of(found.BeatsPerMinute),
                Math.Round(found.ShareExplained, 3),
                [.. found.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.LookPulseAnswer,
            page =>
            {
                page.Facts(
                    ("Heart rate", LedgerVerb.Points(found.BeatsPerMinute, "beats a minute")),
                    ("From", $"{frames} frames over {Saying.Number(Math.Round(seconds, 1))} seconds")
                );
                foreach (var remark in found.Remarks)
                {
                    page.Line(saying.Of(remark));
                }
            }
        );
}
