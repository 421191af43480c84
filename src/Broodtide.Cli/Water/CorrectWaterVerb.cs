using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>One change of a vessel.</summary>
internal sealed record CorrectStepJson(
    double OffsetMinutes,
    double DrawOffLitres,
    double AddWaterLitres,
    double AddMixGrams,
    WaterJson After
);

/// <summary>How a vessel is brought to a salinity.</summary>
internal sealed record CorrectAnswer(
    WaterJson Vessel,
    string Means,
    IReadOnlyList<CorrectStepJson> Steps,
    double MixGrams,
    double WaterLitres,
    double DrawnOffLitres,
    PointsJson ExpectedPpt,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Brings a vessel to a salinity, in steps its animals bear.</summary>
internal static class CorrectWaterVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("WATER", KnownWater.Form);
        var target = Slot.Word("SALINITY", "How salt it shall be, on any scale.");
        var capacity = Slot.Option(
            "--capacity",
            "What it holds when full; the vessel's own if left out.",
            "VOLUME"
        );
        var keep = Slot.Flag("--keep-volume", "Draw off as much as is added.");
        var jump = Slot.Flag(
            "--allow-jump",
            "Change by more than 1 ppt or 1 °C at once: nothing lives in it."
        );
        var brine = Slot.Option("--brine", "Saltier water at hand, to raise with.", "WATER");
        var fresh = Slot.Option(
            "--fresh",
            "Water at hand to lower with; fresh of its own warmth if left out.",
            "WATER"
        );
        var product = new ProductSlots();
        return new VerbCommand(
            "correct",
            "What to pour or dissolve, step by step, to bring a vessel to a salinity.",
            [
                "water correct \"Jar A\" 30",
                "water correct \"7 L; 36 ppt; 24 C\" 30 --capacity 8L",
                "water correct \"10 L; 25; 22 C\" 30 --brine \"8 L; 40 ppt; 22 C\" --allow-jump --json",
            ],
            [vessel, target, capacity, keep, jump, brine, fresh, .. product.All],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var mix = product.Read(said);
                var known = KnownWater.Of(said, outlook, vessel, mix);
                var (water, full, remarks) = (known.Body, known.Capacity, known.Remarks);
                var wanted = said.Scaled(target);
                var holds = said.Volume(capacity).AsVolume() ?? full;
                var salty = WaterText.Of(said, brine, mix);
                var weak = WaterText.Of(said, fresh, mix);
                if (said.Wrong.Count > 0 || wanted is not { } scaled || water is not { } body)
                {
                    return sitting.NotUnderstood(Complaints.Of(said, said.Salinity(target)), saying);
                }

                if (known.Doubtful is { } doubtful)
                {
                    // A correction from a reading that does not fit would be made from the wrong number.
                    return sitting.Refuse([doubtful], saying);
                }

                var plan = CorrectingWater.Plan(
                    new CorrectOrder
                    {
                        Vessel = body,
                        Target = scaled,
                        Capacity = holds,
                        KeepVolume = said.Flag(keep),
                        AllowJump = said.Flag(jump),
                        Brine = salty,
                        Fresh = weak,
                        Product = mix,
                    }
                );
                return plan switch
                {
                    MixingAnswer<WaterCorrection>.Found { Value: var correction } => sitting.Answer(
                        Json(body, correction, [.. remarks.Select(saying.Json)]),
                        CliJson.Default.CorrectAnswer,
                        page => Print(page, body, correction, remarks, saying)
                    ),
                    MixingAnswer<WaterCorrection>.Refused { Refusal: var refusal } => sitting.Refuse([
                        WaterVerb.Of(refusal),
                    ]),
                    _ => throw new InvalidOperationException("A plan is found or refused."),
                };
            }
        );
    }

    private static CorrectAnswer Json(
        WaterBody vessel,
        WaterCorrection correction,
        IReadOnlyList<RemarkJson> remarks
    ) =>
        new(
            WaterJson.Of(vessel),
            EnumWords.Of(correction.Means),
            [
                .. correction.Steps.Select(step => new CorrectStepJson(
                    step.OffsetMinutes,
                    step.DrawOff.Litres,
                    step.AddWater.Litres,
                    step.AddMix.Grams,
                    WaterJson.Of(step.After)
                )),
            ],
            correction.Mix.Grams,
            correction.Water.Litres,
            correction.DrawnOff.Litres,
            PointsJson.Of(correction.Expected),
            remarks
        );

    private static void Print(
        Page page,
        WaterBody vessel,
        WaterCorrection correction,
        IReadOnlyList<Remark> remarks,
        Saying saying
    )
    {
        page.Facts(
            ("Now", ScaleWords.Of(vessel)),
            ("With", Saying.Of(correction.Means)),
            ("Salt mix in all", correction.Mix.Grams > 0 ? $"{Saying.Number(correction.Mix.Grams)} g" : null),
            ("Water in all", correction.Water.Litres > 0 ? UnitNames.Litres(correction.Water.Litres) : null),
            (
                "Drawn off in all",
                correction.DrawnOff.Litres > 0 ? UnitNames.Litres(correction.DrawnOff.Litres) : null
            ),
            ("Expect", LedgerVerb.Points(correction.Expected, "ppt"))
        );
        if (correction.Steps.Count > 0)
        {
            page.Line()
                .Table(
                    ["after", "draw off", "add", "then"],
                    correction.Steps.Select(step =>
                        (IReadOnlyList<string>)
                            [
                                $"{Saying.Number(step.OffsetMinutes)} min",
                                step.DrawOff.Litres > 0 ? UnitNames.Litres(step.DrawOff.Litres) : "",
                                step.AddMix.Grams > 0
                                    ? $"{Saying.Number(step.AddMix.Grams)} g mix"
                                    : UnitNames.Litres(step.AddWater.Litres),
                                ScaleWords.Of(step.After),
                            ]
                    )
                );
        }

        foreach (var remark in remarks)
        {
            page.Line(saying.Of(remark));
        }
    }
}
