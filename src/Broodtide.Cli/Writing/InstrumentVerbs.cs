using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about instruments.</summary>
internal static class InstrumentVerbs
{
    public static IEnumerable<EntryVerb> All() => [Described(), Checked()];

    private static EntryVerb Described()
    {
        var name = Slot.Word(
            "NAME",
            "What it is called here. The name of one that is there describes it anew."
        );
        var kind = Slot.Word("KIND", $"What it is: {EnumWords.All<InstrumentKind>()}.");
        var scale = Slot.Option(
            "--scale",
            "What it reads in, such as ppt, brine, \"sg 20/20\", \"mS/cm at 25\", C.",
            "UNIT"
        );
        var compensated = Slot.Option(
            "--compensated",
            "Whether it corrects for temperature: yes or no.",
            "YES|NO"
        );
        var resolution = Slot.Option("--resolution", "Its smallest step, in its own unit.", "NUMBER");
        var error = Slot.Option("--error", "Standard deviation of one reading, in its own unit.", "NUMBER");
        var glass = Slot.Option(
            "--glass",
            "Of a hydrometer: temperature its glass is made for.",
            "TEMPERATURE"
        );
        var zeroed = Slot.Option(
            "--zeroed",
            "Whether it is set to zero with pure water before use.",
            "YES|NO"
        );
        var ph = Slot.Option(
            "--ph-scale",
            $"Of a pH meter: the scale of the buffers it is set with, {EnumWords.All<AcidityScale>()}; ordinary ones are nbs.",
            "SCALE"
        );
        return new(
            "instrument",
            "An instrument is described, or described better.",
            [
                "write instrument \"Glass hydrometer\" hydrometer --scale \"sg 20/20\" --resolution 0.0005 --glass 20C",
            ],
            [name, kind, scale, compensated, resolution, error, glass, zeroed, ph],
            told =>
            {
                var known = told.Said.House.Instruments.FirstOrDefault(instrument =>
                    string.Equals(
                        instrument.Description?.Name,
                        told.Said.Text(name),
                        StringComparison.OrdinalIgnoreCase
                    )
                );
                return
                [
                    new InstrumentDescribed(
                        known?.Id ?? told.Same((InstrumentDescribed before) => before.Instrument),
                        told.Said.TheName(name),
                        told.Said.TheMember<InstrumentKind>(kind),
                        Scale(told.Said, scale),
                        told.Said.YesNo(compensated),
                        told.Said.Number(resolution),
                        told.Said.Number(error),
                        told.Said.Degrees(glass)?.Celsius,
                        told.Said.YesNo(zeroed),
                        told.Said.Member<AcidityScale>(ph)
                    ),
                ];
            }
        );
    }

    // A unit without a number: read as a one of it.
    private static string? Scale(Said said, Slot slot) =>
        said.Text(slot) is { } text
            ? said.AmountOf($"1 {text}", slot.Name, Enum.GetValues<Dimension>())?.Unit
            : null;

    private static EntryVerb Checked()
    {
        var instrument = Slot.Word("INSTRUMENT", "Which one.");
        var shown = Slot.Word("SHOWN", "What it showed, on its own scale.");
        var standard = Slot.Word("STANDARD", "What the standard is, such as \"35 ppt\".");
        var temperature = Slot.Option("--temperature", "Temperature at which it was done.", "TEMPERATURE");
        var from = Slot.Option(
            "--holds-from",
            "From when the finding holds; when it was done if left out.",
            "TIME"
        );
        var adjusted = Slot.Flag("--adjusted", "It was then set right.");
        var chloride = Slot.Flag(
            "--sodium-chloride",
            "The standard is a sodium chloride solution for refractometers."
        );
        return new(
            "checked",
            "An instrument was held against a standard: its older readings are read again from then on.",
            ["write checked \"Hand refractometer\" 36 \"35 ppt\" --temperature 22C"],
            [instrument, shown, standard, temperature, from, adjusted, chloride],
            told =>
            {
                var id = told.Said.TheInstrument(instrument);
                var scale = told.Said.House.Instrument(id).Description?.Scale;
                var all = Enum.GetValues<Dimension>();
                var none = new TypedNumber("", "1", 0);
                return
                [
                    new InstrumentCalibrated(
                        id,
                        told.Said.AmountOf(told.Said.TheText(shown), shown.Name, all, scale) ?? none,
                        told.Said.AmountOf(told.Said.TheText(standard), standard.Name, all, scale) ?? none,
                        told.Said.Celsius(temperature),
                        told.Said.Time(from)?.Earliest,
                        told.Said.Flag(adjusted),
                        told.Said.Flag(chloride)
                    ),
                ];
            }
        );
    }
}
