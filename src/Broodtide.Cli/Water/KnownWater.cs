using Broodtide.Cli.Door;
using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>
/// Water that is said as a text, or as the name of a vessel whose ledger knows it.
/// </summary>
/// <param name="Body">The water; none where it was not understood.</param>
/// <param name="Vessel">The vessel, if it was said by its name.</param>
/// <param name="Capacity">What that vessel holds, if that is known and not less than what is in it.</param>
/// <param name="Remarks">What its ledger says of it.</param>
internal sealed record KnownWater(
    WaterBody? Body,
    VesselId? Vessel,
    Volume? Capacity,
    IReadOnlyList<Remark> Remarks
)
{
    /// <summary>How both are said, for help.</summary>
    public const string Form = $"A vessel by its name, as its ledger knows it; or {WaterText.Form}.";

    /// <summary>What makes it unfit to be worked from: a reading that does not fit and was not repeated.</summary>
    public Remark? Doubtful => Remarks.FirstOrDefault(remark => remark.Code == "second-reading-first");

    public static KnownWater Of(Said said, Outlook outlook, Slot slot, SaltProduct product)
    {
        if (said.Text(slot) is not { } text)
        {
            return new(null, null, null, []);
        }

        if (text.Contains(';', StringComparison.Ordinal))
        {
            return new(WaterText.Of(said, text, slot.Name, product), null, null, []);
        }

        if (said.Vessel(slot) is not { } id)
        {
            return new(null, null, null, []);
        }

        if (outlook.LedgerOf(id) is not { } ledger)
        {
            said.Add(new Remark("vessel-holds-no-water", new Argument("vessel", id)));
            return new(null, id, null, []);
        }

        var capacity = outlook.House.Vessel(id).Capacity;
        return new(
            new WaterBody(
                Volume.FromLitres(Math.Max(0, ledger.Litres.Middle)),
                Salinity.FromPractical(Math.Max(0, ledger.SalinityPpt.Middle)),
                ledger.Temperature
            ),
            id,
            capacity is { } full && full.Litres >= ledger.Litres.Middle ? capacity : null,
            ledger.Remarks
        );
    }
}
