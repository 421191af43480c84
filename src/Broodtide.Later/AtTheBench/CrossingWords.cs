using Broodtide.Phone.Bench;
using Broodtide.Phone.Language;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;

namespace Broodtide.Phone.AtTheBench;

/// <summary>Deeds, notes and refusals of a crossing in words.</summary>
internal static class CrossingWords
{
    public static IReadOnlyList<BenchStep> Steps(
        CrossingDeeds deeds,
        string into,
        Words words,
        Formats formats
    ) =>
        [
            .. deeds.All.Select(
                (deed, at) =>
                    new BenchStep(
                        deeds.WaitBefore(at),
                        Deed(deeds.Plan, deed, words, formats),
                        Detail(deed, into, words, formats),
                        deed.Act == BenchAct.PourWhole
                            ? words["crossing.done.whole"]
                            : words["crossing.done.pour", formats.Amount(deed.Water)]
                    )
            ),
        ];

    public static string Deed(CrossingPlan plan, CrossingDeed deed, Words words, Formats formats) =>
        deed.Act switch
        {
            BenchAct.PourWhole => words["crossing.deed.whole"],
            BenchAct.PourPortion => words["crossing.deed.portion", formats.Amount(deed.Water)],
            _ => plan.Direction == CrossingDirection.ToSalt
                ? words["crossing.deed.sea", formats.Amount(deed.Water)]
                : words["crossing.deed.fresh", formats.Amount(deed.Water)],
        };

    public static string Detail(CrossingDeed deed, string into, Words words, Formats formats)
    {
        var first = string.Concat(
            deed.ReceivingDrawnOff > default(Volume)
                ? words["crossing.detail.drawReceiving", formats.Amount(deed.ReceivingDrawnOff), into] + " "
                : "",
            deed.CupDrawnOff > default(Volume)
                ? words["crossing.detail.drawCup", formats.Amount(deed.CupDrawnOff)] + " "
                : ""
        );
        return first
            + deed.Act switch
            {
                BenchAct.PourWhole => words["crossing.detail.whole", into],
                BenchAct.PourPortion => words["crossing.detail.portion", into],
                _ => words["crossing.detail.pour"],
            };
    }

    public static string Note(CrossingNote note, Words words, Formats formats) =>
        words[
            "crossing.note." + note.Code,
            note.Code switch
            {
                CrossingNoteCode.DrawnOffThroughMesh or CrossingNoteCode.MorePoursThanWished => (object)
                    (int)Math.Round(note.Amount),
                CrossingNoteCode.ReceivingCapacityUnknown => formats.Amount(
                    Volume.FromLitres(Math.Max(0, note.Amount))
                ),
                CrossingNoteCode.BrackishPartHurried => formats.Plain(note.Amount, 1),
                CrossingNoteCode.CupTemperatureJump
                or CrossingNoteCode.TemperatureOnPouring
                or CrossingNoteCode.ReceivingTemperatureJump => Degrees(note.Amount, formats),
                _ => formats.Number(note.Amount, 1) + Formats.ThinSpace + words["unit.ppt"],
            }
        ];

    public static string Refusal(CrossingRefusal refusal, Words words, Formats formats) =>
        words[
            "crossing.refusal." + refusal.Code,
            words["crossing.field." + refusal.Field],
            InUnit(refusal.Field, refusal.Given, words, formats),
            InUnit(refusal.Field, refusal.Needed, words, formats)
        ];

    public static string Remedy(
        CrossingRefusal refusal,
        CrossingRemedy remedy,
        Words words,
        Formats formats
    ) =>
        words[
            "crossing.remedy." + remedy.Code,
            remedy.Code switch
            {
                CrossingRemedyCode.MovedIntoRange => InUnit(refusal.Field, remedy.Amount, words, formats),
                CrossingRemedyCode.WantedMinutes or CrossingRemedyCode.BrackishLimit => formats.Plain(
                    remedy.Amount,
                    1
                ),
                CrossingRemedyCode.CupTarget or CrossingRemedyCode.SourceSalinity => formats.Reading(
                    Salinity.FromPractical(Math.Max(0, remedy.Amount))
                ),
                CrossingRemedyCode.AllowJump => formats.Number(remedy.Amount, 1),
                _ => formats.Amount(Volume.FromLitres(Math.Max(0, remedy.Amount))),
            },
            words["crossing.field." + refusal.Field]
        ];

    private static string Degrees(double difference, Formats formats) =>
        formats.Units == UnitSystem.Us
            ? formats.Number(1.8 * difference, 1) + Formats.ThinSpace + "°F"
            : formats.Number(difference, 1) + Formats.ThinSpace + "°C";

    private static string InUnit(CrossingField field, double value, Words words, Formats formats) =>
        field switch
        {
            CrossingField.CupSalinity
            or CrossingField.SourceSalinity
            or CrossingField.ReceivingSalinity
            or CrossingField.CupTarget
            or CrossingField.BandTarget
            or CrossingField.BrineSalinity => formats.Number(value, 1)
                + Formats.ThinSpace
                + words["unit.ppt"],
            CrossingField.CupTemperature
            or CrossingField.SourceTemperature
            or CrossingField.ReceivingTemperature
            or CrossingField.BrineTemperature => formats.Reading(
                Temperature.FromCelsius(Math.Clamp(value, -273, 1000))
            ),
            CrossingField.WantedMinutes or CrossingField.RestMinutes => formats.Plain(value, 1)
                + Formats.ThinSpace
                + "min",
            CrossingField.WantedSteps => formats.Plain(value, 0),
            _ => formats.Amount(Volume.FromLitres(Math.Max(0, value))),
        };
}
