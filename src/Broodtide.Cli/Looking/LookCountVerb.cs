using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Larvae;
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

/// <summary>One count: of a photo, or of a burst.</summary>
internal sealed record PicturesCountJson(
    bool Burst,
    PointsJson Larvae,
    PointsJson? CalibratedLarvae,
    double HiddenPercent,
    IReadOnlyList<CountedPictureJson> Pictures,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Larvae counted in pictures.</summary>
internal sealed record LookCountAnswer(IReadOnlyList<PicturesCountJson> Counts, string? MarkedPicture);

/// <summary>A picture that was opened for a count: what the journal keeps of it, and its brightness.</summary>
internal sealed record OpenedPicture(string Path, PictureSeen Seen, GridShape Shape, float[] Grey);

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
        var single = Slot.Flag("--single", "Count each picture by itself, as a photo and not as a burst.");
        var writing = new LookCountWriting();
        return new(
            "count",
            "Count the larvae in one photo, or in a burst of three to ten taken from one place: what moves is counted, what lies still is not.",
            [
                "look count frames --marked marked.png",
                "look count beam.png --json",
                "look count frames --vessel \"Jar A\" --setup \"white dish, lamp at the side\" --write",
            ],
            [files, single, marked, .. writing.All],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var paths = PicturesRead.Find(said, files);
                var toWrite = writing.Read(said);
                if (
                    said.Flag(single)
                    && paths.Count > 1
                    && (toWrite is not null || said.Text(marked) is not null)
                )
                {
                    said.Add(new Remark("look-one-picture", new Argument("pictures", paths.Count)));
                }

                var progress = new LookProgress(sitting);
                var opened = await OpenAsync(said, paths, progress, sitting.Cancellation);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                progress.Say("Counting.");
                IReadOnlyList<IReadOnlyList<OpenedPicture>> looks = said.Flag(single)
                    ? [.. opened.Select(picture => (IReadOnlyList<OpenedPicture>)[picture])]
                    : [opened];
                var counts = looks.Select(Count).ToList();
                var refused = counts.Where(count => !count.Succeeded).Select(count => count.Reason!).ToList();
                if (refused.Count > 0)
                {
                    return sitting.Refuse([.. refused.Distinct()], await sitting.SayingAsync());
                }

                if (said.Text(marked) is { } to)
                {
                    await DrawAsync(said, opened, counts[0].Value, to, sitting.Cancellation);
                }

                if (toWrite is null || !sitting.Json)
                {
                    await LookCountTelling.Tell(
                        sitting,
                        looks,
                        [.. counts.Select(count => count.Value)],
                        said.Text(marked),
                        writing.Setup(said)
                    );
                }

                return toWrite is null
                    ? ExitCode.Done
                    : await writing.WriteAsync(sitting, said, toWrite, opened, counts[0].Value);
            }
        );
    }

    private static Parsed<PicturesCounted> Count(IReadOnlyList<OpenedPicture> pictures) =>
        PicturesCounted.Of(
            [.. pictures.Select(picture => picture.Grey)],
            [.. pictures.Select(picture => picture.Shape)],
            MachineHands.All
        );

    private static async Task<List<OpenedPicture>> OpenAsync(
        Said said,
        IReadOnlyList<string> paths,
        LookProgress progress,
        CancellationToken cancellation
    )
    {
        var opened = new List<OpenedPicture>();
        for (var at = 0; at < paths.Count && said.Wrong.Count == 0; at++)
        {
            progress.Say($"Opening {at + 1} of {paths.Count}.");
            if (await PicturesRead.OpenAsync(said, paths[at], cancellation) is { } picture)
            {
                var hash = await PicturesRead.HashAsync(paths[at], cancellation);
                opened.Add(
                    new(
                        paths[at],
                        new(hash, picture.Shape.Across, picture.Shape.Down),
                        picture.Shape,
                        picture.ToGrey()
                    )
                );
            }
        }

        return opened;
    }

    private static async Task DrawAsync(
        Said said,
        List<OpenedPicture> opened,
        PicturesCounted count,
        string to,
        CancellationToken cancellation
    )
    {
        if (await PicturesRead.OpenAsync(said, opened[count.Shown].Path, cancellation) is { } picture)
        {
            var look = count.Frames[count.Shown].IsUsed ? MarkLook.Found : MarkLook.LeftOut;
            var rings = count
                .Marks.Select(mark => new RingMark(
                    mark.X,
                    mark.Y,
                    1.5 * Math.Sqrt(mark.Area / Math.PI),
                    look
                ))
                .ToList();
            await WholeFile.WriteAsync(to, MarkedPicture.Png(picture, rings), cancellation);
        }
    }
}
