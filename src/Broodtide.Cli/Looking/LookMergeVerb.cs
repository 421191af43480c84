using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>One frame of a merge.</summary>
internal sealed record MergedFrameJson(
    string File,
    bool Used,
    double SharePercent,
    double Sharpness,
    double Scale,
    double RightPixels,
    double DownPixels,
    double Agreement
);

/// <summary>Frames merged into one picture.</summary>
internal sealed record LookMergeAnswer(
    string Picture,
    bool Merged,
    int AcrossPixels,
    int DownPixels,
    string LaidOver,
    string SharpestFrame,
    double Sharpness,
    double HaloPercent,
    double MovedPercent,
    IReadOnlyList<MergedFrameJson> Frames,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Frames focused at different depths, merged into one sharp picture.</summary>
internal static class LookMergeVerb
{
    public static VerbCommand Make()
    {
        var files = Slot.ManyWords("FRAME", "The frames in the order of focus, or a folder of them.");
        var to = Slot.Option("--to", "Write the merged picture as a PNG here.", "FILE");
        var replace = Slot.Flag("--replace", "Write over a file of that name.");
        return new(
            "merge",
            "Merge photos of one thing, focused at different depths, into one that is sharp throughout.",
            ["look merge planes --to sharp.png", "look merge planes --to sharp.png --replace --json"],
            [files, to, replace],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var paths = PicturesRead.Find(said, files);
                if (said.Text(to) is not { } target)
                {
                    said.Add(new Remark("merge-needs-to"));
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                if (File.Exists(target) && !said.Flag(replace))
                {
                    said.Add(new Remark("file-is-there", new Argument("file", target)));
                }

                var opened = new FramesOpened(said, paths, new LookProgress(sitting));
                if (said.Wrong.Count > 0 || !await opened.LookAsync(sitting.Cancellation))
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                var merged = opened.Merge(sitting.Cancellation);
                if (!merged.Succeeded)
                {
                    return sitting.Refuse([merged.Reason], await sitting.SayingAsync());
                }

                await WholeFile.WriteAsync(
                    target,
                    MarkedPicture.Png(new Picture(merged.Value.Shape, merged.Value.Colours), []),
                    sitting.Cancellation
                );
                return Answer(sitting, merged.Value, paths, target);
            }
        );
    }

    private static int Answer(Sitting sitting, Merged merged, IReadOnlyList<string> paths, string target)
    {
        var saying = new Saying(sitting.Zone, sitting.Looked.House);
        return sitting.Answer(
            new LookMergeAnswer(
                target,
                merged.IsMerged,
                merged.Shape.Across,
                merged.Shape.Down,
                paths[merged.Reference],
                paths[merged.Sharpest],
                Math.Round(merged.Sharpness, 2),
                Math.Round(100 * merged.ShareOfHalo, 2),
                Math.Round(100 * merged.ShareMoved, 2),
                [.. merged.Frames.Zip(paths, (frame, path) => Json(frame, path, merged.Shape))],
                [.. merged.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.LookMergeAnswer,
            page =>
            {
                page.Facts(
                    ("Picture", target),
                    ("Size", $"{merged.Shape.Across} by {merged.Shape.Down} pixels"),
                    ("Frames", $"{merged.Frames.Count(frame => frame.IsUsed)} of {paths.Count}"),
                    ("Laid over", Path.GetFileName(paths[merged.Reference])),
                    (
                        "Sharpness",
                        merged.IsMerged
                            ? $"{merged.Sharpness / merged.Frames[merged.Sharpest].Sharpness:0.0} times that of {Path.GetFileName(paths[merged.Sharpest])}, the sharpest frame"
                            : null
                    )
                );
                foreach (var remark in merged.Remarks)
                {
                    page.Line(saying.Of(remark));
                }
            }
        );
    }

    private static MergedFrameJson Json(MergedFrame frame, string path, GridShape shape)
    {
        var (x, y) = ((shape.Across - 1) / 2.0, (shape.Down - 1) / 2.0);
        var (right, down) = frame.Map.At(x, y);
        return new(
            path,
            frame.IsUsed,
            Math.Round(100 * frame.Share, 1),
            Math.Round(frame.Sharpness, 2),
            Math.Round(frame.Map.Scale, 5),
            Math.Round(right - x, 2),
            Math.Round(down - y, 2),
            Math.Round(frame.Correlation, 3)
        );
    }
}
