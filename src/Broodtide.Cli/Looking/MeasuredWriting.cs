using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>The places of a measurement that is to be written down, and its writing.</summary>
internal sealed class MeasuredWriting
{
    private readonly Slot _write = Slot.Flag("--write", "Write it into the journal; needs --vessel.");
    private readonly Slot _vessel = Slot.Option("--vessel", "Where the larvae live.", "VESSEL");
    private readonly Slot _cohort = Slot.Option("--cohort", "The cohort, if known.", "COHORT");
    private readonly TimeSlots _times = new();

    public IReadOnlyList<Slot> All => [_write, _vessel, _cohort, .. _times.All];

    /// <summary>Whether it is to be written; then and otherwise what is wrong with the places is said.</summary>
    public bool IsAsked(Said said)
    {
        _ = (said.Vessel(_vessel), said.Cohort(_cohort));
        if (said.Flag(_write) && said.Text(_vessel) is null)
        {
            said.Add(new Remark("look-write-needs-vessel"));
        }

        return said.Flag(_write);
    }

    /// <summary>Writes it, its place and cohort filled in.</summary>
    public Task<int> WriteAsync(Sitting sitting, Said said, LarvaeMeasured measured) =>
        Entries.WriteAsync(
            sitting,
            [measured with { Vessel = said.TheVessel(_vessel), Cohort = said.Cohort(_cohort) }],
            said.When(_times.When, _times.Since) ?? Happened.At(sitting.Now),
            said.Flag(_times.Yes),
            sitting.Keeper.Write
        );

    /// <summary>What is measured, before its place is filled in.</summary>
    public static LarvaeMeasured Nowhere { get; } = new(default(VesselId));
}
