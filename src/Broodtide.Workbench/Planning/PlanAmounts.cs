using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Planning;

/// <summary>How much of what, by the calculations that make water and doses.</summary>
internal static class PlanAmounts
{
    // Enough for some checks with a few drops each, and a weighing a kitchen scale can make. Practice, no source.
    private static readonly Mass StandardToMake = Mass.FromGrams(200);

    // Tetraselmis cells/mL at which a relative did well, the lower of two: biology of C. villadolidi, a thesis.
    internal const double UsualTargetCells = 5e4;

    public static IEnumerable<Remark> SeaWater(PlanScene scene, Volume water)
    {
        var target = scene.Profile.LarvalSalinityTarget;
        var order = new MakeOrder
        {
            Finished = water,
            Target = ScaledSalinity.Practical(target.Practical),
            Temperature = scene.Wishes.Room,
            Product = scene.Wishes.Product,
        };
        if (MakingWater.Plan(order) is MixingAnswer<SeaWaterRecipe>.Found { Value: var recipe })
        {
            yield return new Remark(
                "amount-salt-mix",
                new("massGrams", recipe.Mix.Grams),
                new("finishedLitres", water.Litres),
                new("salinityPpt", target.Practical),
                new("lowPpt", recipe.Expected.Low),
                new("highPpt", recipe.Expected.High)
            );
            yield return new Remark("amount-fresh-water", new Argument("volumeLitres", recipe.Water.Litres));
        }
    }

    public static IEnumerable<Remark> Standard()
    {
        var standard = RefractometerStandard.Of35(StandardToMake);
        yield return new Remark(
            "amount-standard-35",
            new("sodiumChlorideGrams", standard.DrySodiumChloride.Grams),
            new("pureWaterGrams", standard.Water.Grams)
        );
    }

    public static IEnumerable<Remark> Culture(PlanScene scene, Volume vessel)
    {
        var known = scene.Profile.Find("tetraselmis-cells");
        if (known is null)
        {
            yield return new Remark(
                "amount-algae-not-known",
                new Argument("species", scene.Profile.ScientificName)
            );
            yield break;
        }

        var cells = known.Low ?? known.Value ?? UsualTargetCells;
        var order = new DoseOrder
        {
            Vessel = new WaterBody(vessel, scene.Profile.LarvalSalinityTarget, scene.Wishes.Room),
            Present = default,
            Target = CellDensity.FromPerMillilitre(cells),
            Culture = scene.Wishes.Culture,
            CultureSalinity = scene.Profile.LarvalSalinityTarget,
        };
        if (CultureDose.Plan(order) is MixingAnswer<FoodDose>.Found { Value: var dose })
        {
            yield return new Remark(
                "amount-green-water",
                new("volumeLitres", dose.Dose.Litres),
                new("vesselLitres", vessel.Litres),
                new("targetPerMillilitre", cells),
                new("culturePerMillilitre", scene.Wishes.Culture.PerMillilitre)
            );
        }
    }

    public static IEnumerable<Remark> Bleach(PlanScene scene, Volume water)
    {
        var bleach = Sterilising.Bleach(
            water,
            Sterilising.UsualDose,
            scene.Wishes.BleachStrength,
            animalsInside: false
        );
        if (bleach is MixingAnswer<Volume>.Found { Value: var volume })
        {
            yield return new Remark(
                "amount-bleach",
                new("volumeMillilitres", volume.Millilitres),
                new("waterLitres", water.Litres),
                new("strengthGramsPerLitre", scene.Wishes.BleachStrength.GramsPerLitre),
                new("doseMilligramsPerLitre", Sterilising.UsualDose.MilligramsPerLitre)
            );
        }
    }

    /// <summary>Thiosulfate for a residual that was measured; nothing where none was.</summary>
    public static IEnumerable<Remark> Thiosulfate(Volume water, Concentration? residual)
    {
        if (
            residual is { } measured
            && Sterilising.Thiosulfate(water, measured, animalsInside: false)
                is MixingAnswer<Mass>.Found { Value: var mass }
        )
        {
            yield return new Remark(
                "amount-thiosulfate",
                new("massGrams", mass.Grams),
                new("waterLitres", water.Litres),
                new("residualMilligramsPerLitre", measured.MilligramsPerLitre)
            );
        }
    }
}
