using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>One mark, in pixels of its picture.</summary>
internal sealed record MarkJson(double XPixels, double YPixels, double AreaSquarePixels);

/// <summary>One picture of a count.</summary>
internal sealed record CountedPictureJson(
    string File,
    int AcrossPixels,
    int DownPixels,
    bool Used,
    int Marked,
    IReadOnlyList<MarkJson> Marks
);

/// <summary>Larvae counted in pictures.</summary>
internal sealed record LookCountAnswer(
    bool Burst,
    PointsJson Larvae,
    double HiddenPercent,
    IReadOnlyList<CountedPictureJson> Pictures,
    string? MarkedPicture,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Larvae, counted in a photo or in a burst.</summary>
internal static class LookCountVerb
{
    public static VerbCommand Make()
    {
        var files = Slot.ManyWords(
            "PICTURE",
            "A photo, the frames of a burst in the order taken, or a folder of them."
        );
        var marked = Slot.Option("--marked", "Write the picture with its marks as a PNG here.", "FILE");
        return new(
            "count",
            "Count the larvae in one photo, or in a burst of three to ten taken from one place: what moves is counted, what lies still is not.",
            ["look count frames --marked marked.png", "look count beam.png --json"],
            [files, marked],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var progress = new LookProgress(sitting);
                var paths = PicturesRead.Find(said, files);
                var (greys, shapes) = (new List<float[]>(), new List<GridShape>());
                for (var at = 0; at < paths.Count && said.Wrong.Count == 0; at++)
                {
                    progress.Say($"Opening {at + 1} of {paths.Count}.");
                    if (await PicturesRead.OpenAsync(said, paths[at], sitting.Cancellation) is { } picture)
                    {
                        greys.Add(picture.ToGrey());
                        shapes.Add(picture.Shape);
                    }
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                progress.Say("Counting.");
                var counted = PicturesCounted.Of(greys, shapes);
                if (!counted.Succeeded)
                {
                    return sitting.Refuse([counted.Reason], await sitting.SayingAsync());
                }

                var count = counted.Value;
                if (said.Text(marked) is { } to)
                {
                    await DrawAsync(said, paths[count.Shown], count, to, sitting.Cancellation);
                }

                return Answer(sitting, count, paths, shapes, said.Text(marked));
            }
        );
    }

    private static async Task DrawAsync(
        Said said,
        string path,
        PicturesCounted count,
        string to,
        CancellationToken cancellation
    )
    {
        if (await PicturesRead.OpenAsync(said, path, cancellation) is { } picture)
        {
            var rings = count
                .Marks.Select(mark => new RingMark(mark.X, mark.Y, 1.5 * Math.Sqrt(mark.Area / Math.PI)))
                .ToList();
            await WholeFile.WriteAsync(to, MarkedPicture.Png(picture, rings), cancellation);
        }
    }

    private static int Answer(
        Sitting sitting,
        PicturesCounted count,
        IReadOnlyList<string> paths,
        List<GridShape> shapes,
        string? marked
    )
    {
        var saying = new Saying(sitting.Zone, sitting.Looked.House);
        return sitting.Answer(
            new LookCountAnswer(
                count.IsBurst,
                PointsJson.Of(count.Number),
                100 * count.ShareHidden,
                [.. count.Frames.Select((frame, at) => Json(frame, paths[at], shapes[at]))],
                marked,
                [.. count.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.LookCountAnswer,
            page =>
            {
                page.Facts(
                    ("Larvae", LedgerVerb.Points(Whole(count.Number), "larvae")),
                    ("Marked", string.Join(", ", count.Frames.Select(Marked))),
                    (
                        "Hidden",
                        count.ShareHidden > 0.005
                            ? $"about {Saying.Percent(count.ShareHidden)} behind others"
                            : null
                    ),
                    ("Picture", marked)
                );
                foreach (var remark in count.Remarks)
                {
                    page.Line(saying.Of(remark));
                }
            }
        );
    }

    private static CountedPictureJson Json(CountedFrame frame, string path, GridShape shape) =>
        new(
            path,
            shape.Across,
            shape.Down,
            frame.IsUsed,
            frame.Marks.Count,
            [
                .. frame.Marks.Select(mark => new MarkJson(
                    Math.Round(mark.X, 1),
                    Math.Round(mark.Y, 1),
                    Math.Round(mark.Area)
                )),
            ]
        );

    private static string Marked(CountedFrame frame) =>
        frame.Marks.Count.ToString(CultureInfo.InvariantCulture) + (frame.IsUsed ? "" : " (left out)");

    private static Interval Whole(Interval number) =>
        Interval.FromPoints(Math.Floor(number.Low), Math.Round(number.Middle), Math.Ceiling(number.High));
}
