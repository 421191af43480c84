using Broodtide.Cli.Door;
using Broodtide.Domain.Larvae;
using Broodtide.Storage.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>A set of marked pictures that was written.</summary>
internal sealed record LookLabelledAnswer(string Folder, int Counts, int CountsWithoutFiles, int Files);

/// <summary>Marked pictures as an open set to give away.</summary>
internal static class LookLabelledVerb
{
    public static VerbCommand Make()
    {
        var folder = Slot.Word("FOLDER", "Where to write it; must not be there.");
        var agree = Slot.Flag(
            "--cc0",
            "You say: these pictures are mine, and I give them and their marks away under CC0 1.0."
        );
        return new(
            "labelled",
            "Write the pictures whose marks a person looked over, or whose number is known, into a folder as an open set: names by hash, without places, times or names. Nothing is sent anywhere.",
            ["look labelled openset --cc0"],
            [folder, agree],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var to = said.TheText(folder);
                if (!said.Flag(agree))
                {
                    return sitting.Refuse([new Remark("labelled-needs-cc0")]);
                }

                if (Directory.Exists(to) || File.Exists(to))
                {
                    return sitting.Refuse([new Remark("file-is-there", new Argument("file", to))]);
                }

                var kept = PhotoFolder.Beside(sitting.JournalPath);
                var counts = outlook
                    .House.Account.Occurrences.Select(told => (told.Fact as CountMade)?.Pictures)
                    .OfType<PicturesSeen>()
                    .Where(LabelledSet.IsLabelled)
                    .Select(seen => new LabelledCount(
                        seen,
                        [
                            .. seen.Pictures.Select(picture =>
                                kept.Read(picture.Sha256) is { Succeeded: true } file ? file.Value : null
                            ),
                        ]
                    ))
                    .ToList();
                var (files, written) = LabelledSet.Of(counts);
                await WriteAsync(to, files, sitting.Cancellation);
                return sitting.Answer(
                    new LookLabelledAnswer(to, written, counts.Count - written, files.Count),
                    CliJson.Default.LookLabelledAnswer,
                    page =>
                    {
                        page.Line($"{written} counts with their pictures are in {to}.");
                        if (written < counts.Count)
                        {
                            page.Line(
                                $"{counts.Count - written} were left out: their pictures are not kept here. \"look count --write --keep\" keeps them, and so does a photo of the count."
                            );
                        }

                        page.Line("Look at each picture before you pass it on: it shows what it shows.");
                    }
                );
            }
        );
    }

    // Under another name until it is whole.
    private static async Task WriteAsync(
        string folder,
        IReadOnlyList<SetFile> files,
        CancellationToken cancellation
    )
    {
        var beside = $"{Path.TrimEndingDirectorySeparator(folder)}.{Guid.CreateVersion7():n}.part";
        try
        {
            foreach (var file in files)
            {
                var path = Path.Combine(beside, file.Name);
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                await File.WriteAllBytesAsync(path, file.Bytes, cancellation);
            }

            Directory.Move(beside, folder);
        }
        finally
        {
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }
        }
    }
}
