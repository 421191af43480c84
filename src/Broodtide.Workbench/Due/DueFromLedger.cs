using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>What a vessel's ledger asks for. A reading that does not fit is read again before anything is poured.</summary>
internal static class DueFromLedger
{
    // An hour between two portions, as a top-up is told; two hours for a second reading. Practice, no source.
    private const double RestMinutes = 60;
    private static readonly Duration ReadAgainWithin = Duration.FromHours(2);
    private static readonly Duration CorrectWithin = Duration.FromHours(12);

    public static IEnumerable<PlannedAction> Of(VesselLedger ledger, Vessel vessel, Instant now)
    {
        if (ledger.Ended)
        {
            yield break;
        }

        var about = Subject.Of(ledger.Vessel);
        if (Find(ledger, "second-reading-first") is { } doubtful)
        {
            yield return Make(
                ActionCodes.ReadAgain,
                about,
                doubtful["entry"] is EntryId entry ? entry.Value.ToString("N") : "1",
                now,
                now + ReadAgainWithin,
                doubtful,
                DoorCode.WriteReading
            );
            yield break;
        }

        foreach (var jumped in ledger.Remarks.Where(remark => remark.Code is "sensor-jumped"))
        {
            yield return Make(
                ActionCodes.ReadAgain,
                about,
                jumped["since"] is Instant since
                    ? since.ToUnixTimeSeconds().ToString(System.Globalization.CultureInfo.InvariantCulture)
                    : "1",
                now,
                now + ReadAgainWithin,
                jumped,
                DoorCode.WriteReading
            );
        }

        // Each move of water is a new occasion: what was poured is done without a word.
        var occasion = $"{ledger.FillNumber}.{ledger.Rows.Count(row => row.Occurrence.Fact is WaterMoved)}";
        if (ledger.TopUp is { } topUp && ledger.Leaving is { } leaving)
        {
            yield return Make(
                ActionCodes.TopUp,
                about,
                occasion,
                now,
                Instant.Max(now, leaving.Earliest),
                Reason(ledger, leaving),
                DoorCode.WriteWaterMove
            ) with
            {
                Amounts = [Amount(topUp)],
                Cautions = [CautionCode.MainsBesideSaltWater],
            };
        }
        else if (Find(ledger, "below-its-band") is { } below)
        {
            yield return Correct(ledger, vessel, about, occasion, now, below, below["targetPpt"]);
        }
        else if (ledger.Leaving is { } out0 && ledger.SalinityPpt.Middle > out0.LimitPpt)
        {
            // Above the band with no room for a top-up: water must come off.
            yield return Correct(
                ledger,
                vessel,
                about,
                occasion,
                now,
                Reason(ledger, out0),
                out0.LimitPpt - 1
            );
        }
    }

    private static PlannedAction Correct(
        VesselLedger ledger,
        Vessel vessel,
        Subject about,
        string occasion,
        Instant now,
        Remark reason,
        object? targetPpt
    ) =>
        Make(
            ActionCodes.CorrectSalinity,
            about,
            occasion,
            now,
            now + CorrectWithin,
            reason,
            DoorCode.CorrectWater
        ) with
        {
            Amounts = targetPpt is double target ? [.. Correction(ledger, vessel, target)] : [],
            Cautions = [CautionCode.MainsBesideSaltWater],
        };

    private static IEnumerable<Remark> Correction(VesselLedger ledger, Vessel vessel, double target)
    {
        var order = new CorrectOrder
        {
            Vessel = new WaterBody(
                Volume.FromLitres(Math.Max(0, ledger.Litres.Middle)),
                Salinity.FromPractical(Math.Max(0, ledger.SalinityPpt.Middle)),
                ledger.Temperature
            ),
            Target = ScaledSalinity.Practical(Math.Max(0, target)),
            Capacity = vessel.Capacity,
        };
        if (CorrectingWater.Plan(order) is MixingAnswer<WaterCorrection>.Found { Value: var correction })
        {
            yield return new Remark(
                "amount-correction",
                new("massGrams", correction.Mix.Grams),
                new("waterLitres", correction.Water.Litres),
                new("drawnOffLitres", correction.DrawnOff.Litres),
                new("steps", correction.Steps.Count),
                new("expectedPpt", correction.Expected.Middle)
            );
        }
    }

    private static Remark Amount(TopUp topUp) =>
        new(
            "amount-top-up",
            new("eachLitres", topUp.Each.Litres),
            new("portions", topUp.Portions),
            new("restMinutes", RestMinutes),
            new("celsius", topUp.Temperature.Celsius),
            new("afterPpt", topUp.AfterPpt.Middle),
            new("heldByLine", topUp.HeldByLine)
        );

    private static Remark Reason(VesselLedger ledger, LeavingBand leaving) =>
        new(
            "due-leaves-its-band",
            new("nowPpt", ledger.SalinityPpt.Middle),
            new("limitPpt", leaving.LimitPpt),
            new("earliest", leaving.Earliest),
            new("middle", leaving.Middle ?? leaving.Earliest)
        );

    private static Remark? Find(VesselLedger ledger, string code) =>
        ledger.Remarks.FirstOrDefault(remark => string.Equals(remark.Code, code, StringComparison.Ordinal));

    private static PlannedAction Make(
        string code,
        Subject about,
        string occasion,
        Instant from,
        Instant by,
        Remark reason,
        DoorCode door
    ) =>
        new()
        {
            Key = ActionKey.Of(code, about, occasion),
            Code = code,
            About = about,
            From = from,
            By = by,
            Reason = reason,
            Door = new(door, about),
        };
}
