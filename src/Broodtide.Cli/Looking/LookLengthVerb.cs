using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Larvae;
using Broodtide.Photos;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>The length of a larva.</summary>
internal sealed record LookLengthAnswer(
    string File,
    PointsJson LengthMicrometres,
    double LengthPixels,
    PointsJson MicrometresPerPixel,
    IReadOnlyList<RemarkJson> Remarks,
    string? MarkedPicture
);

/// <summary>A larva, measured along its axis.</summary>
internal static class LookLengthVerb
{
    // A place said by its pixels is good to about two of them.
    private const double SaidPixels = 2;

    public static VerbCommand Make()
    {
        var file = Slot.Word("PICTURE", "A photo of a larva that lies flat, sharp from end to end.");
        var at = Slot.Option(
            "--at",
            "A place on the larva that is meant, in pixels; the largest thing if left out.",
            "X,Y"
        );
        var along = Slot.Option(
            "--along",
            "Places along the larva from end to end, in pixels, where it is not found by itself.",
            "X,Y;X,Y"
        );
        var marked = Slot.Option("--marked", "Write the picture with the axis marked as a PNG here.", "FILE");
        var scale = new LookScale();
        var writing = new MeasuredWriting();
        return new(
            "length",
            "The length of a larva along its curved axis, with how sure it is. Tried on invented larvae only.",
            [
                "look length larva.png --um-per-px 5 --marked axis.png",
                "look length larva.png --scale-from ruler.png --ticks-um 10 --json",
                "look length larva.png --um-per-px 5 --along \"80,120;160,120;230,130\"",
                "look length larva.png --um-per-px 5 --vessel \"Jar A\" --write",
            ],
            [file, at, along, .. scale.All, marked, .. writing.All],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var progress = new LookProgress(sitting);
                var (tap, line) = (Places(said, at), Places(said, along));
                var isWritten = writing.IsAsked(said);
                var (um, refused) = await scale.ReadAsync(said, progress, sitting.Cancellation);
                if (refused is not null)
                {
                    return sitting.Refuse([refused], await sitting.SayingAsync());
                }

                if (
                    await PicturesRead.OneAsync(said, file, sitting.Cancellation) is not var (path, picture)
                    || um is null
                )
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                progress.Say("Measuring.");
                var found =
                    line.Count > 1
                        ? LarvaLength.Tapped(line, SaidPixels, um.Value)
                        : LarvaLength.Find(
                            picture.ToGrey(),
                            picture.Shape,
                            um.Value,
                            tap.Count > 0 ? tap[0] : null
                        );
                if (!found.Succeeded)
                {
                    return sitting.Refuse([found.Reason], await sitting.SayingAsync());
                }

                if (said.Text(marked) is { } to)
                {
                    await WholeFile.WriteAsync(to, Drawn(picture, found.Value), sitting.Cancellation);
                }

                if (!isWritten || !sitting.Json)
                {
                    Tell(
                        sitting,
                        await sitting.SayingAsync(),
                        path,
                        um.Value,
                        found.Value,
                        said.Text(marked)
                    );
                }

                return !isWritten
                    ? ExitCode.Done
                    : await writing.WriteAsync(
                        sitting,
                        said,
                        MeasuredWriting.Nowhere with
                        {
                            Micrometres = [MeasuredValue.Of(found.Value.Micrometres)],
                            Scale = scale.By(said),
                            Picture = await PicturesRead.HashAsync(path, sitting.Cancellation),
                        }
                    );
            }
        );
    }

    internal static List<(double X, double Y)> Places(Said said, Slot slot)
    {
        var places = new List<(double, double)>();
        foreach (var part in (said.Text(slot) ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries))
        {
            if (
                part.Split(',') is [var x, var y]
                && double.TryParse(x, CultureInfo.InvariantCulture, out var across)
                && double.TryParse(y, CultureInfo.InvariantCulture, out var down)
                && Math.Abs(across) < 1e5
                && Math.Abs(down) < 1e5
            )
            {
                places.Add((across, down));
            }
            else
            {
                said.Add(new Remark("place-not-read", new("field", slot.Name), new("typed", part)));
            }
        }

        return places;
    }

    private static byte[] Drawn(Picture picture, LengthFound found) =>
        MarkedPicture.Png(
            picture,
            [],
            [.. found.Axis.Zip(found.Axis.Skip(1), (from, to) => new LineMark(from.X, from.Y, to.X, to.Y))]
        );

    private static int Tell(
        Sitting sitting,
        Saying saying,
        string path,
        Interval scale,
        LengthFound found,
        string? marked
    ) =>
        sitting.Answer(
            new LookLengthAnswer(
                path,
                PointsJson.Of(found.Micrometres),
                found.Pixels,
                PointsJson.Of(scale),
                [.. found.Remarks.Select(saying.Json)],
                marked
            ),
            CliJson.Default.LookLengthAnswer,
            page =>
            {
                page.Facts(
                    ("Length", LedgerVerb.Points(found.Micrometres.Scaled(0.001), "mm")),
                    ("In the picture", $"{Saying.Number(found.Pixels)} pixels along its axis")
                );
                foreach (var remark in found.Remarks)
                {
                    page.Line(saying.Of(remark));
                }

                if (marked is not null)
                {
                    page.Line($"The picture with the axis marked is {marked}.");
                }
            }
        );
}
