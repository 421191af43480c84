using Broodtide.Cli.Door;
using Broodtide.Cli.Feeding;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Photos;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>The scale of a picture.</summary>
internal sealed record LookScaleAnswer(
    string File,
    PointsJson MicrometresPerPixel,
    double StepPixels,
    int Ticks,
    IReadOnlyList<RemarkJson> Remarks,
    string? MarkedPicture
);

/// <summary>How large a pixel is, by the ticks of a ruler in the picture.</summary>
internal static class LookScaleVerb
{
    public static VerbCommand Make()
    {
        var file = Slot.Word("PICTURE", "A photo of a ruler, such as a stage micrometer.");
        var ticks = Slot.Option("--ticks-um", "Micrometres from one tick to the next.", "NUMBER");
        var marked = Slot.Option(
            "--marked",
            "Write the picture with its ticks marked as a PNG here.",
            "FILE"
        );
        return new(
            "scale",
            "How many micrometres a pixel is, by the ticks of a ruler.",
            ["look scale ruler.png --ticks-um 10 --marked ticks.png"],
            [file, ticks, marked],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var step = FoodText.Number(said, ticks, 1e-3, 1e6);
                if (said.Text(ticks) is null)
                {
                    said.Add(new Remark("look-scale-needs-ticks"));
                }

                if (await PicturesRead.OneAsync(said, file, sitting.Cancellation) is not var (path, picture))
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                new LookProgress(sitting).Say("Looking for ticks.");
                var found = RulerScale.Find(picture.ToGrey(), picture.Shape, step ?? 1);
                if (!found.Succeeded)
                {
                    return sitting.Refuse([found.Reason], await sitting.SayingAsync());
                }

                if (said.Text(marked) is { } to)
                {
                    var lines = found
                        .Value.Marks.Select(m => new LineMark(m.FromX, m.FromY, m.ToX, m.ToY))
                        .ToList();
                    await WholeFile.WriteAsync(
                        to,
                        MarkedPicture.Png(picture, [], lines),
                        sitting.Cancellation
                    );
                }

                return Tell(sitting, await sitting.SayingAsync(), path, found.Value, said.Text(marked));
            }
        );
    }

    private static int Tell(Sitting sitting, Saying saying, string path, ScaleFound found, string? marked) =>
        sitting.Answer(
            new LookScaleAnswer(
                path,
                PointsJson.Of(found.MicrometresPerPixel),
                found.StepPixels,
                found.Ticks,
                [.. found.Remarks.Select(saying.Json)],
                marked
            ),
            CliJson.Default.LookScaleAnswer,
            page =>
            {
                page.Facts(
                    (
                        "Scale",
                        $"{Um(found.MicrometresPerPixel.Middle)} um a pixel ({Um(found.MicrometresPerPixel.Low)} to {Um(found.MicrometresPerPixel.High)}, nine chances in ten)"
                    ),
                    ("By", $"{found.Ticks} ticks, {Saying.Number(found.StepPixels)} pixels apart")
                );
                foreach (var remark in found.Remarks)
                {
                    page.Line(saying.Of(remark));
                }

                if (marked is not null)
                {
                    page.Line($"The picture with its ticks marked is {marked}.");
                }
            }
        );

    private static string Um(double value) =>
        value.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture);
}
