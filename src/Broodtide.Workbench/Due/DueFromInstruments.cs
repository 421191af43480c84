using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>Instruments whose last check is old.</summary>
internal static class DueFromInstruments
{
    private static readonly Duration Within = Duration.FromDays(7);
    private static readonly Duration Slips = Duration.FromDays(30);

    public static IEnumerable<PlannedAction> Of(House house, Instant now)
    {
        foreach (var instrument in house.Instruments)
        {
            if (
                instrument.Description?.Kind
                    is not (
                        InstrumentKind.Refractometer
                        or InstrumentKind.Hydrometer
                        or InstrumentKind.SwingArmHydrometer
                        or InstrumentKind.ConductivityMeter
                    )
                || FirstRead(house, instrument.Id) is not { } used
            )
            {
                continue;
            }

            var last = instrument.Calibrations.MaxBy(calibration => calibration.Done.Latest);
            var from = last is null
                ? used
                : last.Done.Latest + Duration.FromDays(PlanBeforeHatch.CheckHoldsDays);
            var about = Subject.Of(instrument.Id);
            yield return new PlannedAction
            {
                // The check before it gives the occasion.
                Key = ActionKey.Of(
                    ActionCodes.CheckInstrument,
                    about,
                    last?.Entry.Value.ToString("N") ?? "first"
                ),
                Code = ActionCodes.CheckInstrument,
                About = about,
                From = from,
                By = Instant.Max(from, now) + Within,
                SlipsUntil = Instant.Max(from, now) + Slips,
                Reason = last is null
                    ? new Remark("due-never-checked")
                    : new Remark(
                        "due-check-is-old",
                        new("last", last.Done.Latest),
                        new("days", (now - last.Done.Latest).TotalDays)
                    ),
                IfItSlips = new Remark("slip-wider-salinity"),
                Amounts =
                    instrument.Description.Kind is InstrumentKind.Refractometer
                        ? [.. PlanAmounts.Standard()]
                        : [],
                Door = new(DoorCode.WriteCalibration, about),
            };
        }
    }

    private static Instant? FirstRead(House house, InstrumentId id)
    {
        foreach (var occurrence in house.Account.About(Subject.Of(id)))
        {
            if (occurrence.Fact is ReadingTaken)
            {
                return occurrence.Happened.Latest;
            }
        }

        return null;
    }
}
