using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>What a count in pictures says, as a page or as JSON.</summary>
internal static class LookCountTelling
{
    public static async Task Tell(
        Sitting sitting,
        IReadOnlyList<IReadOnlyList<OpenedPicture>> looks,
        IReadOnlyList<PicturesCounted> counts,
        string? marked,
        SetupCalibration? setup
    )
    {
        var saying = await sitting.SayingAsync();
        sitting.Answer(
            new LookCountAnswer(
                [.. looks.Zip(counts, (look, count) => Json(look, count, setup, saying))],
                marked
            ),
            CliJson.Default.LookCountAnswer,
            page =>
            {
                foreach (var (look, count) in looks.Zip(counts))
                {
                    if (looks.Count > 1)
                    {
                        page.Heading(Path.GetFileName(look[0].Path));
                    }

                    Say(page, count, setup, saying);
                }

                if (marked is not null)
                {
                    page.Line($"The picture with its marks is {marked}.");
                }
            }
        );
    }

    private static void Say(Page page, PicturesCounted count, SetupCalibration? setup, Saying saying)
    {
        page.Facts(
            ("In the picture", LedgerVerb.Points(Whole(count.Number), "larvae")),
            (
                "Calibrated",
                Calibrated(count, setup) is { } number ? LedgerVerb.Points(Whole(number), "larvae") : null
            ),
            ("Marked", string.Join(", ", count.Frames.Select(Marked))),
            (
                "Hidden",
                count.ShareHidden > 0.005 ? $"about {Saying.Percent(count.ShareHidden)} behind others" : null
            )
        );
        foreach (var remark in Remarks(count, setup))
        {
            page.Line(saying.Of(remark));
        }
    }

    private static PicturesCountJson Json(
        IReadOnlyList<OpenedPicture> look,
        PicturesCounted count,
        SetupCalibration? setup,
        Saying saying
    ) =>
        new(
            count.IsBurst,
            PointsJson.Of(count.Number),
            Calibrated(count, setup) is { } number ? PointsJson.Of(number) : null,
            100 * count.ShareHidden,
            [.. look.Zip(count.Frames, Json)],
            [.. Remarks(count, setup).Select(saying.Json)]
        );

    private static CountedPictureJson Json(OpenedPicture picture, CountedFrame frame) =>
        new(
            picture.Path,
            picture.Shape.Across,
            picture.Shape.Down,
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

    // The number by the set-up's own pictures, where they make a calibration.
    private static Interval? Calibrated(PicturesCounted count, SetupCalibration? setup) =>
        setup is { Calibration.IsOwn: true }
            ? setup.Calibration.Number(count.Marks.Count, count.Number).Value
            : null;

    private static IEnumerable<Remark> Remarks(PicturesCounted count, SetupCalibration? setup) =>
        [.. count.Remarks, .. setup?.Calibration.Remarks(count.Marks.Count) ?? []];

    private static string Marked(CountedFrame frame) =>
        frame.Marks.Count.ToString(CultureInfo.InvariantCulture) + (frame.IsUsed ? "" : " (left out)");

    private static Interval Whole(Interval number) =>
        Interval.FromPoints(Math.Floor(number.Low), Math.Round(number.Middle), Math.Ceiling(number.High));
}
