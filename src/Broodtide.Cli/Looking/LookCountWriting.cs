using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

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
    private readonly TimeSlots _times = new();

    public IReadOnlyList<Slot> All =>
        [_write, _vessel, _setup, _known, _cohort, _dark, _again, .. _times.All];

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

    public Task<int> WriteAsync(
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
        return Entries.WriteAsync(
            sitting,
            [fact],
            said.When(_times.When, _times.Since) ?? Happened.At(sitting.Now),
            said.Flag(_times.Yes),
            sitting.Keeper.Write
        );
    }
}
