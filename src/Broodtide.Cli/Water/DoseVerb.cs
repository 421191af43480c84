using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>A dose of culture.</summary>
internal sealed record DoseAnswer(
    double DoseLitres,
    double DrawOffLitres,
    WaterJson After,
    double? SalinityChangePpt,
    double ShareOfVessel,
    string Warning
);

/// <summary>How much culture gives a density of food.</summary>
internal static class DoseVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("WATER", $"The vessel's water: {WaterText.Form}.");
        var present = Slot.Option("--present", "Cells in it now, per mL; none if left out.", "CELLS");
        var target = Slot.Option("--target", "Cells wanted, per mL.", "CELLS");
        var culture = Slot.Option("--culture", "Cells of the culture, per mL.", "CELLS");
        var salinity = Slot.Option("--culture-salinity", "Salinity of the culture's water.", "SALINITY");
        var replace = Slot.Flag("--replace", "Draw off as much vessel water first.");
        return new VerbCommand(
            "dose",
            "How much of a culture gives a density of food, and what that does to the salinity.",
            ["water dose \"7 L; 30; 24 C\" --target 5e4 --culture 1.2e6 --culture-salinity 28"],
            [vessel, present, target, culture, salinity, replace],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var water = WaterText.The(said, vessel, SaltProduct.Unmeasured);
                var now = Cells(said, present) ?? default;
                var wanted = Cells(said, target);
                var dense = Cells(said, culture);
                var typed = said.Salinity(salinity);
                var salt = typed is null
                    ? (Salinity?)null
                    : WaterText.Salinity(
                        said,
                        typed,
                        salinity.Name,
                        water.Temperature,
                        SaltProduct.Unmeasured
                    );
                if (said.Wrong.Count == 0 && (wanted is null || dense is null))
                {
                    said.Add(new Remark("dose-needs-both"));
                }

                if (said.Wrong.Count > 0 || wanted is not { } aim || dense is not { } cells)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var plan = CultureDose.Plan(
                    new DoseOrder
                    {
                        Vessel = water,
                        Present = now,
                        Target = aim,
                        Culture = cells,
                        CultureSalinity = salt,
                        Replaces = said.Flag(replace),
                    }
                );
                return plan switch
                {
                    MixingAnswer<FoodDose>.Found { Value: var dose } => sitting.Answer(
                        new DoseAnswer(
                            dose.Dose.Litres,
                            dose.DrawOff.Litres,
                            WaterJson.Of(dose.After),
                            dose.SalinityChange,
                            dose.ShareOfVessel,
                            EnumWords.Of(dose.Warning)
                        ),
                        CliJson.Default.DoseAnswer,
                        page => Print(page, dose)
                    ),
                    MixingAnswer<FoodDose>.Refused { Refusal: var refusal } => sitting.Refuse([
                        WaterVerb.Of(refusal),
                    ]),
                    _ => throw new InvalidOperationException("A plan is found or refused."),
                };
            }
        );
    }

    private static void Print(Page page, FoodDose dose)
    {
        page.Facts(
            ("Draw off", dose.DrawOff.Litres > 0 ? UnitNames.Litres(dose.DrawOff.Litres) : null),
            (
                "Culture",
                dose.Dose.Litres > 0 ? UnitNames.Litres(dose.Dose.Litres) : "none: there is food enough"
            ),
            ("Then", ScaleWords.Of(dose.After)),
            (
                "Salinity moves",
                dose.SalinityChange is { } change
                    ? $"{Saying.Number(change)} ppt"
                    : "not known: the culture's salinity was not said"
            )
        );
        if (dose.Warning is not DoseWarning.None)
        {
            page.Line(Saying.Of(dose.Warning));
        }
    }

    private static CellDensity? Cells(Said said, Slot slot) =>
        said.Amount(slot, Dimension.CellDensity, UnitCode.CellsPerMillilitre) is { } typed
            ? typed.Value is >= 0 and <= 1e12
                ? CellDensity.FromPerMillilitre(typed.Value)
                : Impossible(said, slot, typed)
            : null;

    private static CellDensity? Impossible(Said said, Slot slot, TypedNumber typed)
    {
        said.Add(
            new Remark(
                "number-impossible",
                new("field", slot.Name),
                new("typed", typed.Typed),
                new("lowest", 0.0),
                new("highest", 1e12)
            )
        );
        return null;
    }
}
