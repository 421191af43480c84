using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Cli.Photos;

/// <summary>One photo of the journal.</summary>
internal sealed record PhotoOfJournal(
    string Id,
    string ShortId,
    string Sha256,
    string MediaType,
    long Bytes,
    int? AcrossPixels,
    int? DownPixels,
    string HappenedTo,
    string? Caption,
    string? GoesWith,
    bool? PlaceKept,
    bool Here
);

/// <summary>The photos of the journal.</summary>
internal sealed record PhotoListAnswer(IReadOnlyList<PhotoOfJournal> Photos);

/// <summary>A photo written out as a file.</summary>
internal sealed record PhotoSavedAnswer(string Sha256, string File, long Bytes);

/// <summary>Photos: brought in, listed, written out.</summary>
internal static class PhotoVerb
{
    public static Command Make() =>
        new("photo", "Keep photos with the journal. What the camera wrote beside the picture is left out.")
        {
            Add(),
            List(),
            Save(),
        };

    private static VerbCommand Add()
    {
        var file = Slot.Word("FILE", "The photo: JPEG, PNG or WebP.");
        var entry = Slot.Option("--for", "The entry it goes with, or \"last\".", "ENTRY");
        var vessel = Slot.Option("--vessel", "About this vessel.", "VESSEL");
        var animal = Slot.Option("--animal", "About this animal.", "ANIMAL");
        var run = Slot.Option("--run", "About this run.", "RUN");
        var caption = Slot.Option("--caption", "What it shows, in your words.", "TEXT");
        var keepPlace = Slot.Flag(
            "--keep-place",
            "Keep the file as it is, with the place where it was taken."
        );
        var asTaken = Slot.Flag("--when-taken", "It was then what the camera says; else now, or --when.");
        var times = new TimeSlots();
        return new(
            "add",
            "Bring a photo in. The place where it was taken and all else beside the picture is left out.",
            ["photo add eggs.jpg --for last --caption \"eyed eggs\""],
            [file, entry, vessel, animal, run, caption, keepPlace, asTaken, .. times.All],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var read = await ReadAsync(said, file, said.Flag(keepPlace), sitting.Cancellation);
                var goesWith = said.Text(entry) is null ? null : said.Entry(entry);
                var happened = said.When(times.When, times.Since);
                var (about, of, on) = (said.Vessel(vessel), said.Animal(animal), said.Run(run));
                if (said.Wrong.Count > 0 || read is not { } photo)
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                if (happened is null && said.Flag(asTaken) && photo.Look.Taken is { } taken)
                {
                    happened = Happened.At(taken.In(sitting.Zone));
                }

                var fact = new PhotoAdded(
                    photo.Sha256,
                    PhotoFormats.MediaTypeOf(photo.Look.Format),
                    photo.Bytes.Length,
                    about,
                    of,
                    on,
                    said.Text(caption),
                    goesWith is null ? null : FirstOf(outlook.House.Account, goesWith).Id,
                    photo.Look.Across,
                    photo.Look.Down,
                    PlaceKept: photo.Look.HoldsPlace && photo.PlaceKept
                );
                // The file first: an entry never names one that was not kept.
                await sitting.OpenAsync();
                PhotoFolder.Beside(sitting.JournalPath).Put(photo.Bytes);
                return await Entries.WriteAsync(
                    sitting,
                    [fact],
                    happened ?? Happened.At(sitting.Now),
                    said.Flag(times.Yes),
                    sitting.Keeper.Write
                );
            }
        );
    }

    private static VerbCommand List() =>
        new(
            "list",
            "List the photos of the journal, and whether their files are here.",
            ["photo list"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var folder = PhotoFolder.Beside(sitting.JournalPath);
                var answer = new PhotoListAnswer([
                    .. outlook
                        .House.Account.Occurrences.Where(told => told.Fact is PhotoAdded)
                        .Select(told => Of(told, (PhotoAdded)told.Fact, folder)),
                ]);
                return sitting.Answer(
                    answer,
                    CliJson.Default.PhotoListAnswer,
                    page =>
                    {
                        foreach (var photo in answer.Photos)
                        {
                            var here = photo.Here ? "" : ", not here";
                            page.Line(
                                $"{photo.ShortId}: {photo.Caption ?? "photo"}, {photo.MediaType}, {photo.Bytes} bytes{here}."
                            );
                        }

                        if (answer.Photos.Count == 0)
                        {
                            page.Line("There are no photos in this journal.");
                        }
                    }
                );
            }
        );

    private static VerbCommand Save()
    {
        var entry = Slot.Word("PHOTO", "The entry of the photo, as \"journal\" shows it, or \"last\".");
        var file = Slot.Word("FILE", "Where to write it; must not be there.");
        return new(
            "save",
            "Write a photo out as a file, byte for byte as it is kept.",
            ["photo save last kept.jpg"],
            [entry, file],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var path = said.TheText(file);
                var photo = said.Entry(entry)?.Fact as PhotoAdded;
                if (photo is null && said.Wrong.Count == 0)
                {
                    said.Add(
                        new Remark(
                            "photo-unknown",
                            new("field", entry.Name),
                            new("typed", said.TheText(entry))
                        )
                    );
                }

                if (File.Exists(path))
                {
                    said.Add(new Remark("file-is-there", new Argument("file", path)));
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                var read = PhotoFolder.Beside(sitting.JournalPath).Read(photo!.Sha256);
                if (read is not { Succeeded: true })
                {
                    return sitting.Refuse(
                        [
                            read?.Reason
                                ?? new Remark("photo-not-here", new Argument("photo", said.TheText(entry))),
                        ],
                        await sitting.SayingAsync()
                    );
                }

                await File.WriteAllBytesAsync(path, read.Value, sitting.Cancellation);
                return sitting.Answer(
                    new PhotoSavedAnswer(photo.Sha256, path, read.Value.Length),
                    CliJson.Default.PhotoSavedAnswer,
                    page => page.Line($"Written to {path}: {read.Value.Length} bytes.")
                );
            }
        );
    }

    private static async Task<PhotoTaken?> ReadAsync(
        Said said,
        Slot file,
        bool keepPlace,
        CancellationToken cancellation
    )
    {
        var at = new FileInfo(said.TheText(file));
        if (!at.Exists)
        {
            said.Add(new Remark("file-not-there", new Argument("file", said.TheText(file))));
            return null;
        }

        if (at.Length > PhotoLimits.LargestFileBytes)
        {
            said.Add(PhotoIntake.TooLarge(at.Length));
            return null;
        }

        var read = PhotoIntake.Take(await File.ReadAllBytesAsync(at.FullName, cancellation), keepPlace);
        return said.Take(read) ? read.Value : null;
    }

    private static Entry FirstOf(Account account, Entry entry) =>
        account.Occurrences.FirstOrDefault(told => told.Told.Id == entry.Id)?.First ?? entry;

    private static PhotoOfJournal Of(Occurrence told, PhotoAdded photo, PhotoFolder folder) =>
        new(
            told.Id.Value.ToString(),
            Naming.Short(told.Id),
            photo.Sha256,
            photo.MediaType,
            photo.Bytes,
            photo.Across,
            photo.Down,
            Saying.Iso(told.Happened.Latest),
            photo.Caption,
            photo.Entry?.Value.ToString(),
            photo.PlaceKept,
            folder.Has(photo.Sha256)
        );
}
