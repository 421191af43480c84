using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Storage.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.Photos;

namespace Broodtide.Cli.Looking;

/// <summary>The places of a count in pictures that is to be written down, and its writing.</summary>
internal sealed class LookCountWriting
{
    private readonly Slot _write = Slot.Flag("--write", "Write the count into the journal; needs --vessel.");
    private readonly Slot _vessel = Slot.Option("--vessel", "Where the larvae live.", "VESSEL");
    private readonly Slot _setup = Slot.Option(
        "--setup",
        "Container and lamp as you call them, always the same words: counts are calibrated for each by itself.",
        "NAME"
    );
    private readonly Slot _known = Slot.Option(
        "--known",
        "How many there truly are, where they were counted one by one anyway, as at a crossing. Handle no larva for this alone.",
        "COUNT"
    );
    private readonly Slot _cohort = Slot.Option(
        "--cohort",
        "The cohort, if only one is in the picture.",
        "COHORT"
    );
    private readonly Slot _dark = Slot.Option("--dark", "Whether the room was dark: yes or no.", "YES|NO");
    private readonly Slot _again = Slot.Flag("--again", "The same water a second time, as a check.");
    private readonly Slot _keep = Slot.Flag(
        "--keep",
        "Keep the pictures with the journal too, without what the camera wrote beside them."
    );
    private readonly TimeSlots _times = new();

    public IReadOnlyList<Slot> All =>
        [_write, _vessel, _setup, _known, _cohort, _dark, _again, _keep, .. _times.All];

    /// <summary>The calibration of the container and lamp that was named; none where none was.</summary>
    public SetupCalibration? Setup(Said said) =>
        said.Text(_setup) is { } name ? SetupCalibrations.Of(said.House, name) : null;

    /// <summary>What is to be written beside the count; none where nothing is.</summary>
    public SaidOfPictures? Read(Said said)
    {
        var vessel = said.Vessel(_vessel);
        var known = said.Count(_known);
        var (cohort, dark) = (said.Cohort(_cohort), said.YesNo(_dark));
        if (!said.Flag(_write))
        {
            return null;
        }

        if (said.Text(_vessel) is null)
        {
            said.Add(new Remark("look-write-needs-vessel"));
        }

        return new(vessel ?? default, said.Text(_setup), known, cohort, dark, said.Flag(_again));
    }

    public async Task<int> WriteAsync(
        Sitting sitting,
        Said said,
        SaidOfPictures toWrite,
        IReadOnlyList<OpenedPicture> opened,
        PicturesCounted count
    )
    {
        var shape = opened[0].Shape;
        var fact = PictureCounts.Entry(
            toWrite,
            [.. opened.Select(picture => picture.Seen)],
            count,
            Markings.OfProgram(count.Marks),
            [PictureCounts.OfProgram(count, CountedAt.CommandLine, Math.Max(shape.Across, shape.Down))]
        );
        IReadOnlyList<Fact> facts = [fact];
        if (said.Flag(_keep))
        {
            var (photos, refused) = await KeptAsync(opened, toWrite, sitting.Cancellation);
            if (refused.Count > 0)
            {
                return sitting.NotUnderstood(refused, await sitting.SayingAsync());
            }

            // The files first: an entry never names one that was not kept.
            await sitting.OpenAsync();
            var folder = PhotoFolder.Beside(sitting.JournalPath);
            foreach (var (_, file) in photos)
            {
                folder.Put(file);
            }

            facts = [fact, .. photos.Select(photo => photo.Fact)];
        }

        EntryId? written = null;
        return await Entries.WriteAsync(
            sitting,
            facts,
            said.When(_times.When, _times.Since) ?? Happened.At(sitting.Now),
            said.Flag(_times.Yes),
            (told, happened) =>
            {
                // The count is written first; its pictures go with it.
                var draft = sitting.Keeper.Write(
                    told is PhotoAdded photo ? photo with { Entry = written } : told,
                    happened
                );
                written ??= draft.Id;
                return draft;
            }
        );
    }

    private static async Task<(List<(PhotoAdded Fact, byte[] File)>, List<Remark>)> KeptAsync(
        IReadOnlyList<OpenedPicture> opened,
        SaidOfPictures toWrite,
        CancellationToken cancellation
    )
    {
        var (photos, refused) = (new List<(PhotoAdded, byte[])>(), new List<Remark>());
        foreach (var path in opened.Select(picture => picture.Path))
        {
            var taken = PhotoIntake.Take(await File.ReadAllBytesAsync(path, cancellation));
            if (!taken.Succeeded)
            {
                refused.AddRange([new Remark("picture-refused", new Argument("file", path)), taken.Reason]);
                continue;
            }

            var (look, bytes) = (taken.Value.Look, taken.Value.Bytes);
            photos.Add(
                (
                    new PhotoAdded(
                        taken.Value.Sha256,
                        PhotoFormats.MediaTypeOf(look.Format),
                        bytes.Length,
                        toWrite.Vessel,
                        Across: look.Across,
                        Down: look.Down
                    ),
                    bytes
                )
            );
        }

        return (photos, refused);
    }
}
