using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Language;

namespace Broodtide.Phone.Pages.Vessels;

/// <summary>What a line of a ledger says of its entry, seen from the vessel.</summary>
internal sealed class LedgerWords(Words words, Formats formats, Naming naming, House house, VesselId vessel)
{
    /// <summary>The line; none for an entry that says nothing of water.</summary>
    public string? Of(Fact fact) =>
        fact switch
        {
            ReadingTaken reading => Reading(reading, "vessel.read"),
            WaterMoved moved => Moved(moved),
            VesselFilled filled when filled.Vessel != vessel => words[
                "vessel.line.pouredTo",
                Amount(filled.Volume),
                naming.Of(house, filled.Vessel)
            ],
            VesselFilled { From: { } from } filled => words[
                "vessel.line.filledFrom",
                Amount(filled.Volume),
                naming.Of(house, from)
            ],
            VesselFilled filled => words["vessel.line.filled", Amount(filled.Volume)],
            VesselFed fed when fed.Vessel != vessel => words["vessel.line.gaveFood", Amount(fed.Volume)],
            VesselFed { Volume: { } volume } => words["vessel.line.fed", Amount(volume)],
            VesselFed => words["vessel.line.fedOther"],
            CrossingMade { Number: { } number } => words["vessel.line.crossed", number],
            CrossingMade => words["vessel.line.crossedSome"],
            VesselSiphoned { Volume: { } volume } => words["vessel.line.siphoned", Amount(volume)],
            VesselSiphoned => words["vessel.line.siphonedSome"],
            VesselEmptied => words["vessel.line.emptied"],
            _ => null,
        };

    /// <summary>A reading as it was read.</summary>
    public string AsRead(ReadingTaken reading) => Reading(reading, "vessel.read.as");

    private string Reading(ReadingTaken reading, string code)
    {
        var value = reading.Value;
        var shown = formats.Plain(
            value.Value,
            value.Unit.StartsWith("sal:sg", StringComparison.Ordinal) ? 4 : 1
        );
        return value.Unit switch
        {
            "Cel" or "[degF]" => words[$"{code}.celsius", formats.Reading(value.AsTemperature() ?? default)],
            UnitCode.PracticalSalinity => words[$"{code}.ppt", shown],
            ['s', 'a', 'l', ':', 's', 'g', ..] => words[$"{code}.sg", shown],
            ['s', 'a', 'l', ':', 'm', 'S', ..] => words[$"{code}.mS", shown],
            ['s', 'a', 'l', ':', ..] => words[$"{code}.scale", shown],
            var unit => words[$"{code}.other", shown, unit],
        };
    }

    private string Moved(WaterMoved moved) =>
        moved switch
        {
            { Mix: { } mix } => words["vessel.line.mix", formats.Amount(mix.AsMass() ?? default)],
            { Evaporated: true } => words["vessel.line.evaporated", Amount(moved.Volume)],
            { From: { } from, To: { } to } when to == vessel => words[
                "vessel.line.pouredFrom",
                Amount(moved.Volume),
                naming.Of(house, from)
            ],
            { To: { } to } when to != vessel => words[
                "vessel.line.pouredTo",
                Amount(moved.Volume),
                naming.Of(house, to)
            ],
            { To: null } => words["vessel.line.drawnOff", Amount(moved.Volume)],
            { Salinity.Value: > 0 } => words["vessel.line.pouredSalt", Amount(moved.Volume)],
            { Volume: null, ToLine: true } => words["vessel.line.toppedToLine"],
            _ => words["vessel.line.toppedUp", Amount(moved.Volume)],
        };

    private string Amount(TypedNumber? volume) =>
        volume.AsVolume() is { } amount ? formats.Amount(amount) : words["vessel.line.some"];
}
