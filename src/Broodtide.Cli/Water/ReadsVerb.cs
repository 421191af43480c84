using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>A correction that was applied.</summary>
internal sealed record ReadCorrectionJson(string Code, double AmountPpt, string? CalibratedFrom);

/// <summary>What a reading means.</summary>
internal sealed record ReadsAnswer(
    double Value,
    string Unit,
    PointsJson? SalinityPpt,
    double? SdPpt,
    IReadOnlyList<ReadCorrectionJson> Corrections,
    IReadOnlyList<string> Doubts
);

/// <summary>Tells what a reading of salinity means.</summary>
internal static class ReadsVerb
{
    public static Command Make()
    {
        var value = Slot.Word("VALUE", "What the instrument shows, with its scale, such as \"36 brine\".");
        var with = Slot.Option("--with", "The instrument, with its checks.", "INSTRUMENT");
        var kind = Slot.Option(
            "--kind",
            $"What the instrument is, where it has no name here: {EnumWords.All<SalinityInstrument>()}.",
            "WORD"
        );
        var sample = Slot.Option("--sample-temperature", "Temperature of the sample.", "TEMPERATURE");
        return new VerbCommand(
            "reads",
            "What a salinity reading means: the corrected salinity with its interval, and each correction, none twice.",
            [
                "water reads 36 --with \"Hand refractometer\" --sample-temperature 24C",
                "water reads \"1.0240 sg 20/20\" --kind glass-hydrometer --sample-temperature 25C --json",
            ],
            [value, with, kind, sample],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var instrument = said.Instrument(with);
                var scale = instrument is { } id ? outlook.House.Instrument(id).Description?.Scale : null;
                var typed = said.AmountOf(
                    said.TheText(value),
                    "value",
                    [Dimension.Salinity],
                    scale ?? UnitCode.PracticalSalinity
                );
                var facts = instrument is { } known
                    ? WaterMeanings.Facts(outlook.House.Instrument(known), SaltProduct.Unmeasured)
                    : new InstrumentFacts { Kind = said.Member<SalinityInstrument>(kind) ?? default };
                var warm = said.Degrees(sample);
                if (said.Wrong.Count > 0 || typed is null)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var meaning = ReadingMeanings.Of(
                    new SalinityReading(
                        ScaledSalinity.FromUnit(typed.Value, typed.Unit)!.Value,
                        warm,
                        sitting.Now
                    ),
                    facts,
                    SaltProduct.Unmeasured
                );
                return meaning switch
                {
                    ReadingMeaning.Known told => sitting.Answer(
                        Json(typed, told),
                        CliJson.Default.ReadsAnswer,
                        page => Print(page, typed, told, new Saying(sitting.Zone, null))
                    ),
                    ReadingMeaning.Unknown unknown => sitting.Refuse([
                        new Remark(Saying.Key(unknown.Code)),
                        .. unknown.IfReference.Select(If),
                    ]),
                    _ => throw new InvalidOperationException("A reading means something or nothing."),
                };
            }
        );
    }

    private static Remark If(ReferenceMeaning meaning) =>
        meaning.Salinity is { } salinity
            ? new Remark(
                "if-reference-is",
                new("sampleCelsius", meaning.Reference.Sample.Celsius),
                new("waterCelsius", meaning.Reference.Water.Celsius),
                new("salinityPpt", salinity.Practical)
            )
            : new Remark(
                "if-reference-is-outside",
                new("sampleCelsius", meaning.Reference.Sample.Celsius),
                new("waterCelsius", meaning.Reference.Water.Celsius)
            );

    private static ReadsAnswer Json(TypedNumber typed, ReadingMeaning.Known told) =>
        new(
            typed.Value,
            typed.Unit,
            PointsJson.Of(told.Salinity),
            told.Sd,
            [
                .. told.Corrections.Select(correction => new ReadCorrectionJson(
                    EnumWords.Of(correction.Code),
                    correction.Amount,
                    correction.CalibratedFrom is { } from ? Saying.Iso(from) : null
                )),
            ],
            [.. told.Doubts.Select(EnumWords.Of)]
        );

    private static void Print(Page page, TypedNumber typed, ReadingMeaning.Known told, Saying saying)
    {
        page.Line($"{UnitNames.Of(typed)} means {LedgerVerb.Points(told.Salinity, "ppt")}.");
        foreach (var correction in told.Corrections)
        {
            page.Line(
                $"  corrected: {Saying.Of(correction.Code)}, {(correction.Amount >= 0 ? "+" : "")}{Saying.Number(correction.Amount)} ppt"
                    + (correction.CalibratedFrom is { } from ? $", as checked {saying.Time(from)}" : "")
            );
        }

        foreach (var doubt in told.Doubts)
        {
            page.Line($"  wider because: {Saying.Of(doubt)}");
        }
    }
}
