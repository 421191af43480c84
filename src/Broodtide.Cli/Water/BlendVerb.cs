using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>One water of a blend.</summary>
internal sealed record BlendPartJson(WaterJson AtHand, double UseLitres);

/// <summary>A blend.</summary>
internal sealed record BlendAnswer(
    IReadOnlyList<BlendPartJson> Waters,
    WaterJson Blend,
    PointsJson ExpectedPpt
);

/// <summary>Blends waters.</summary>
internal static class BlendVerb
{
    public static Command Make()
    {
        var waters = Slot.Options("--water", $"A water at hand; say each: {WaterText.Form}.", "WATER");
        var wanted = Slot.Option("--wanted", "How much is wanted; all of each if left out.", "VOLUME");
        var target = Slot.Option("--target", "How salt, on any scale; needs --wanted.", "SALINITY");
        var product = new ProductSlots();
        return new VerbCommand(
            "blend",
            "How much of each water at hand gives a salinity; or what comes of pouring all of them together.",
            [
                "water blend --water \"6 L; 35; 20 C\" --water \"10 L; 0; 24 C\" --wanted 5L --target 30",
                "water blend --water \"1 L; 35; 20 C\" --water \"500 mL; 0; 24 C\" --json",
            ],
            [waters, wanted, target, .. product.All],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var mix = product.Read(said);
                var atHand = said.Texts(waters)
                    .Select(text => WaterText.Of(said, text, waters.Name, mix))
                    .OfType<WaterBody>()
                    .ToList();
                var much = said.Volume(wanted);
                var scaled = said.Scaled(target);
                if (atHand.Count == 0 && said.Wrong.Count == 0)
                {
                    said.Add(new Remark("blend-needs-waters", new Argument("allowed", WaterText.Form)));
                }

                if (said.Text(wanted) is null != said.Text(target) is null)
                {
                    said.Add(new Remark("blend-needs-both"));
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(Complaints.Of(said, much));
                }

                var plan =
                    scaled is { } aim && much.AsVolume() is { } volume
                        ? BlendingWater.Plan(
                            new BlendOrder
                            {
                                Waters = atHand,
                                Wanted = volume,
                                Target = aim,
                                Product = mix,
                            }
                        )
                        : BlendingWater.Of(atHand, new MeasuringErrors());
                return plan switch
                {
                    MixingAnswer<WaterBlend>.Found { Value: var blend } => sitting.Answer(
                        new BlendAnswer(
                            [
                                .. atHand.Zip(
                                    blend.Amounts,
                                    (water, amount) => new BlendPartJson(WaterJson.Of(water), amount.Litres)
                                ),
                            ],
                            WaterJson.Of(blend.Blend),
                            PointsJson.Of(blend.Expected)
                        ),
                        CliJson.Default.BlendAnswer,
                        page =>
                        {
                            foreach (var (water, amount) in atHand.Zip(blend.Amounts))
                            {
                                page.Line(
                                    $"Pour {UnitNames.Litres(amount.Litres)} of the {ScaleWords.Of(water)}."
                                );
                            }

                            page.Line(
                                $"Gives {ScaleWords.Of(blend.Blend)}; expect {LedgerVerb.Points(blend.Expected, "ppt")}."
                            );
                        }
                    ),
                    MixingAnswer<WaterBlend>.Refused { Refusal: var refusal } => sitting.Refuse([
                        WaterVerb.Of(refusal),
                    ]),
                    _ => throw new InvalidOperationException("A plan is found or refused."),
                };
            }
        );
    }
}
