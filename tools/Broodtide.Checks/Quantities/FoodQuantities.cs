using Broodtide.Science.Food;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Media, light, doses, grazing and other food.</summary>
internal static class FoodQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "medium.micromoles_per_litre",
            "mg_per_L, molar_mass",
            inputs =>
                CultureMedium.MicromolesPerLitre(
                    inputs.MilligramsPerLitre("mg_per_L"),
                    inputs.Number("molar_mass")
                )
        ),
        Quantity.Of(
            "medium.mg_per_litre",
            "umol_per_L, molar_mass",
            inputs =>
                CultureMedium
                    .MassOf(inputs.Number("umol_per_L"), inputs.Number("molar_mass"))
                    .MilligramsPerLitre
        ),
        Quantity.Of(
            "medium.stock_volume",
            "stock_g_per_L, target_mg_per_L, volume_L",
            inputs =>
                CultureMedium
                    .Stock(
                        inputs.GramsPerLitre("stock_g_per_L"),
                        inputs.MilligramsPerLitre("target_mg_per_L"),
                        inputs.Litres("volume_L")
                    )
                    .Millilitres
        ),
        Quantity.Of(
            "light.steele_factor",
            "i, i_opt",
            inputs => AlgalLight.Steele(inputs.Number("i"), inputs.Number("i_opt"))
        ),
        Quantity.Of(
            "light.steele_depth_mean",
            "i0, i_opt, k_per_m, z_m",
            inputs =>
                AlgalLight.SteeleOverDepth(
                    inputs.Number("i0"),
                    inputs.Number("i_opt"),
                    inputs.Number("k_per_m"),
                    inputs.Number("z_m")
                )
        ),
        Quantity.Of(
            "light.platt",
            "ps, alpha, beta, i",
            inputs =>
                AlgalLight.Platt(
                    inputs.Number("ps"),
                    inputs.Number("alpha"),
                    inputs.Number("beta"),
                    inputs.Number("i")
                )
        ),
        Quantity.Of(
            "light.platt_max",
            "ps, alpha, beta",
            inputs => AlgalLight.PlattMost(inputs.Number("ps"), inputs.Number("alpha"), inputs.Number("beta"))
        ),
        Quantity.Of(
            "light.depth_mean",
            "i0, k_per_m, z_m",
            inputs =>
                AlgalLight.MeanOverDepth(inputs.Number("i0"), inputs.Number("k_per_m"), inputs.Number("z_m"))
        ),
        Quantity.Of(
            "light.attenuation",
            "chl_mg_per_m3, kw_per_m, kc_m2_per_mg",
            inputs =>
                AlgalLight.AttenuationPerMetre(
                    inputs.Number("chl_mg_per_m3"),
                    inputs.Number("kw_per_m"),
                    inputs.Number("kc_m2_per_mg")
                )
        ),
        Quantity.Of("food.dose_volume", "target, present, volume_L, culture, mode", Dose),
        Quantity.Of(
            "food.cells_per_day",
            "volume_L, target, loss_fraction",
            inputs =>
                FoodDose.CellsPerDay(
                    inputs.Litres("volume_L"),
                    inputs.Cells("target"),
                    inputs.Fraction("loss_fraction")
                )
        ),
        Quantity.Of(
            "grazing.clearance_rate",
            "volume_mL, larvae, hours, control, grazed",
            inputs =>
                Grazing.ClearedMillilitresPerHour(
                    Volume.FromMillilitres(inputs.Number("volume_mL")),
                    inputs.Whole("larvae"),
                    inputs.Number("hours"),
                    inputs.Cells("control"),
                    inputs.Cells("grazed")
                )
        ),
        Quantity.Of(
            "grazing.mean_concentration",
            "c0, ct",
            inputs => Grazing.Mean(inputs.Cells("c0"), inputs.Cells("ct")).PerMillilitre
        ),
        Quantity.Of(
            "grazing.clearance_from_ingestion",
            "ingestion_ng_per_d, food_ng_per_mL",
            inputs =>
                Grazing.ClearedMillilitresPerDay(
                    inputs.Number("ingestion_ng_per_d"),
                    inputs.Number("food_ng_per_mL")
                )
        ),
        Quantity.Of(
            "grazing.daily_loss_percent",
            "larvae_per_L, clearance_mL_per_d",
            inputs =>
                Grazing.LostPerDay(inputs.Number("larvae_per_L"), inputs.Number("clearance_mL_per_d")).Percent
        ),
        Quantity.Of(
            "artemia.cysts_g",
            "volume_L, nauplii_per_mL, nauplii_per_g, harvest_fraction",
            inputs =>
                LiveFeed
                    .Cysts(
                        inputs.Litres("volume_L"),
                        inputs.Number("nauplii_per_mL"),
                        inputs.Number("nauplii_per_g"),
                        inputs.Fraction("harvest_fraction")
                    )
                    .Grams
        ),
        Quantity.Of(
            "artemia.cyst_density_max",
            "vessel_L",
            inputs => LiveFeed.DensestCysts(inputs.Litres("vessel_L")).GramsPerLitre
        ),
        Quantity.Of(
            "yeast.cells_per_g",
            "diameter_um, density_g_per_mL",
            inputs =>
                Yeast.CellsPerGram(
                    inputs.Number("diameter_um"),
                    Density.FromGramsPerCubicCentimetre(inputs.Number("density_g_per_mL"))
                )
        ),
        Quantity.Of(
            "stocking.postlarvae_per_litre",
            "larvae_per_L, survival",
            inputs => Stocking.SettledPerLitre(inputs.Number("larvae_per_L"), inputs.Fraction("survival"))
        ),
    ];

    private static double Dose(CheckInputs inputs)
    {
        var dose = inputs.OneOf<Func<CellDensity, CellDensity, Volume, CellDensity, Volume>>(
            "mode",
            ("add", FoodDose.Added),
            ("replace", FoodDose.InExchange)
        );
        return dose(
            inputs.Cells("target"),
            inputs.Cells("present"),
            inputs.Litres("volume_L"),
            inputs.Cells("culture")
        ).Millilitres;
    }
}
