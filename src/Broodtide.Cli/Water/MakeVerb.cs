using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Species;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>What a source of doubt adds.</summary>
internal sealed record DoubtJson(string Source, double SdPpt);

/// <summary>A recipe.</summary>
internal sealed record MakeAnswer(
    double MixGrams,
    double WaterLitres,
    WaterJson Finished,
    PointsJson ExpectedPpt,
    IReadOnlyList<DoubtJson> Doubts,
    IReadOnlyList<ScaleJson> OtherScales
);

/// <summary>Makes sea water from salt mix and fresh water.</summary>
internal static class MakeVerb
{
    public static Command Make()
    {
        var volume = Slot.Word("VOLUME", "Finished water wanted, such as 10L.");
        var target = Slot.MaybeWord(
            "SALINITY",
            "How salt, on any scale, such as 30, \"35 g/kg\", \"1.0235 sg 25/25\"; the target for larvae if left out."
        );
        var temperature = Slot.Option(
            "--temperature",
            "Temperature of the water; 24 °C if left out.",
            "TEMPERATURE"
        );
        var start = Slot.Option(
            "--start",
            "Salinity the water to start from has already; fresh if left out.",
            "SALINITY"
        );
        var species = SpeciesSlot.Make();
        var product = new ProductSlots();
        return new VerbCommand(
            "make",
            "How much salt mix and water give so much sea water, and how sure that is.",
            [
                "water make 10L",
                "water make 10L 30",
                "water make 2gal \"1.0235 sg 25/25\" --temperature 77F --json",
            ],
            [volume, target, temperature, start, species, .. product.All],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var profile = SpeciesSlot.Read(said, species, outlook.Profiles);
                var mix = product.Read(said);
                var litres = said.TheAmount(volume, Dimension.Volume);
                var wanted = said.Text(target) is null
                    ? ScaledSalinity.Practical(profile.LarvalSalinityTarget.Practical)
                    : said.Scaled(target);
                var warm = said.Degrees(temperature) ?? Temperature.FromCelsius(WaterText.UsualCelsius);
                var from = WaterText.Salinity(said, said.Salinity(start), "start", warm, mix);
                if (
                    said.Wrong.Count > 0
                    || wanted is not { } scaled
                    || from is not { } salinity
                    || ((TypedNumber?)litres).AsVolume() is not { } finished
                )
                {
                    return sitting.NotUnderstood(Complaints.Of(said, litres));
                }

                var plan = MakingWater.Plan(
                    new MakeOrder
                    {
                        Finished = finished,
                        Target = scaled,
                        Temperature = warm,
                        Product = mix,
                        Start = salinity,
                    }
                );
                return plan switch
                {
                    MixingAnswer<SeaWaterRecipe>.Found { Value: var recipe } => sitting.Answer(
                        Json(recipe),
                        CliJson.Default.MakeAnswer,
                        page => Print(page, recipe, salinity)
                    ),
                    MixingAnswer<SeaWaterRecipe>.Refused { Refusal: var refusal } => sitting.Refuse([
                        WaterVerb.Of(refusal),
                    ]),
                    _ => throw new InvalidOperationException("A plan is found or refused."),
                };
            }
        );
    }

    private static MakeAnswer Json(SeaWaterRecipe recipe) =>
        new(
            recipe.Mix.Grams,
            recipe.Water.Litres,
            WaterJson.Of(recipe.Finished),
            PointsJson.Of(recipe.Expected),
            [.. recipe.Doubts.Select(doubt => new DoubtJson(EnumWords.Of(doubt.Source), doubt.Sd))],
            ScaleWords.Json(recipe.OtherScales)
        );

    private static void Print(Page page, SeaWaterRecipe recipe, Salinity start)
    {
        page.Facts(
            ("Salt mix", $"{Saying.Number(recipe.Mix.Grams)} g"),
            (
                start.Practical > 0 ? $"Water of {Saying.Number(start.Practical)} ppt" : "Fresh water",
                UnitNames.Litres(recipe.Water.Litres)
            ),
            ("Gives", ScaleWords.Of(recipe.Finished)),
            ("Expect", LedgerVerb.Points(recipe.Expected, "ppt")),
            (
                "In doubt",
                string.Join(
                    ", ",
                    recipe
                        .Doubts.Where(d => d.Sd > 0)
                        .Select(d => $"{EnumWords.Plain(d.Source)} ± {Saying.Number(d.Sd)}")
                )
            )
        );
        page.Line("Mix in fresh water, let it stand a day with air, and read it before any larva meets it.")
            .Line();
        ScaleWords.Print(page, recipe.OtherScales);
    }
}
