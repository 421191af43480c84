using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Planning;

namespace Broodtide.Cli.Water;

/// <summary>Bleach into water, or thiosulfate for what was measured.</summary>
internal sealed record SteriliseAnswer(
    double WaterLitres,
    double? BleachMillilitres,
    double? ThiosulfateGrams,
    string? AnimalsMayGoIn,
    IReadOnlyList<string> Cautions
);

/// <summary>Sterilises water with bleach and neutralises what is left.</summary>
internal static class SteriliseVerb
{
    public static Command Make()
    {
        var volume = Slot.Word("VOLUME", "The water, such as 10L.");
        var strength = Slot.Option(
            "--strength",
            "Available chlorine of the bleach, such as \"4 %\" or \"25 g/L\".",
            "CHLORINE"
        );
        var dose = Slot.Option("--dose", "Chlorine wanted; 5 mg/L if left out.", "CHLORINE");
        var residual = Slot.Option("--residual", "Chlorine a test shows after the contact time.", "CHLORINE");
        var animals = Slot.Flag("--animals-inside", "Something lives in it.");
        return new VerbCommand(
            "sterilise",
            "Bleach for a volume of water; and, once a test shows what is left, thiosulfate for that. Never with animals inside.",
            ["water sterilise 10L --strength \"4 %\"", "water sterilise 10L --residual 1.5mg/L"],
            [volume, strength, dose, residual, animals],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var typed = said.TheAmount(volume, Dimension.Volume);
                var bleach = Chlorine(said, strength);
                var wanted = Chlorine(said, dose) ?? Sterilising.UsualDose;
                var left = Chlorine(said, residual);
                if (said.Wrong.Count == 0 && bleach is null && left is null)
                {
                    said.Add(new Remark("sterilise-needs-one"));
                }

                if (said.Wrong.Count > 0 || ((TypedNumber?)typed).AsVolume() is not { } water)
                {
                    return sitting.NotUnderstood(Complaints.Of(said, typed));
                }

                return Answer(sitting, water, bleach, wanted, left, said.Flag(animals));
            }
        );
    }

    private static int Answer(
        Sitting sitting,
        Volume water,
        Concentration? strength,
        Concentration dose,
        Concentration? residual,
        bool animals
    )
    {
        MixingRefusal? no = null;
        double? millilitres = null;
        double? grams = null;
        if (strength is { } strong)
        {
            switch (Sterilising.Bleach(water, dose, strong, animals))
            {
                case MixingAnswer<Volume>.Found { Value: var volume }:
                    millilitres = volume.Millilitres;
                    break;
                case MixingAnswer<Volume>.Refused { Refusal: var refusal }:
                    no = refusal;
                    break;
                default:
                    break;
            }
        }

        if (residual is { } left)
        {
            switch (Sterilising.Thiosulfate(water, left, animals))
            {
                case MixingAnswer<Mass>.Found { Value: var mass }:
                    grams = mass.Grams;
                    break;
                case MixingAnswer<Mass>.Refused { Refusal: var refusal }:
                    no = refusal;
                    break;
                default:
                    break;
            }
        }

        if (no is not null)
        {
            return sitting.Refuse([WaterVerb.Of(no)]);
        }

        var gate = Sterilising.GateToAnimals(residual);
        string[] cautions = [Saying.Of(CautionCode.BleachAndAcids)];
        return sitting.Answer(
            new SteriliseAnswer(water.Litres, millilitres, grams, gate is null ? "yes" : "no", cautions),
            CliJson.Default.SteriliseAnswer,
            page =>
            {
                page.Facts(
                    (
                        "Bleach",
                        millilitres is { } m
                            ? $"{Saying.Number(m)} mL for {Saying.Number(dose.MilligramsPerLitre)} mg/L, then a day"
                            : null
                    ),
                    (
                        "Thiosulfate",
                        grams is { } g
                            ? $"{Saying.Number(g)} g of crystals (pentahydrate), for the chlorine measured"
                            : null
                    ),
                    (
                        "Animals",
                        gate is null
                            ? "the test shows none: they may go in"
                            : "not before a test shows no chlorine"
                    )
                );
                page.Line(cautions[0]);
            }
        );
    }

    private static Concentration? Chlorine(Said said, Slot slot) =>
        said.Amount(slot, Dimension.Chlorine, "mg/L{Cl2}") is { Value: >= 0 and <= 1e6 } typed
            ? typed.Unit == "g/L{Cl2}"
                ? Concentration.FromGramsPerLitre(typed.Value)
                : Concentration.FromMilligramsPerLitre(typed.Value)
            : null;
}
