using Broodtide.Science.Food;

namespace Broodtide.Checks.Quantities;

/// <summary>Growth and content of microalgae.</summary>
internal static class AlgaeQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "algae.growth_rate",
            "n0, n1, days",
            inputs => AlgalGrowth.RatePerDay(inputs.Cells("n0"), inputs.Cells("n1"), inputs.Number("days"))
        ),
        Quantity.Of(
            "algae.doubling_time",
            "mu_per_d",
            inputs => AlgalGrowth.DoublingDays(inputs.Number("mu_per_d"))
        ),
        Quantity.Of(
            "algae.divisions_per_day",
            "mu_per_d",
            inputs => AlgalGrowth.DivisionsPerDay(inputs.Number("mu_per_d"))
        ),
        Quantity.Of(
            "algae.logistic_density",
            "n0, capacity, r_per_d, days",
            inputs =>
                AlgalGrowth
                    .Logistic(
                        inputs.Cells("n0"),
                        inputs.Cells("capacity"),
                        inputs.Number("r_per_d"),
                        inputs.Number("days")
                    )
                    .PerMillilitre
        ),
        Quantity.Of(
            "algae.logistic_time",
            "n0, capacity, n, r_per_d",
            inputs =>
                AlgalGrowth.DaysToReach(
                    inputs.Cells("n0"),
                    inputs.Cells("capacity"),
                    inputs.Cells("n"),
                    inputs.Number("r_per_d")
                )
        ),
        Quantity.Of(
            "algae.semicontinuous_mu",
            "fraction, days",
            inputs => AlgalGrowth.RateForHarvest(inputs.Fraction("fraction"), inputs.Number("days"))
        ),
        Quantity.Of(
            "algae.semicontinuous_fraction",
            "mu_per_d, days",
            inputs => AlgalGrowth.ShareForHarvest(inputs.Number("mu_per_d"), inputs.Number("days")).Value
        ),
        Quantity.Of(
            "algae.nitrogen_limited_cells",
            "n_mg_per_L, n_pg_per_cell",
            inputs =>
                AlgalCells
                    .LimitedByNitrogen(
                        inputs.MilligramsPerLitre("n_mg_per_L"),
                        inputs.Number("n_pg_per_cell")
                    )
                    .PerMillilitre
        ),
        Quantity.Of(
            "algae.skeletonema_mu_max",
            "t_C",
            inputs => AlgalGrowth.SkeletonemaDivisionsPerDay(inputs.Celsius("t_C")).Value
        ),
        Quantity.Of(
            "algae.skeletonema_alpha",
            "t_C",
            inputs => AlgalGrowth.SkeletonemaDivisionsPerLangley(inputs.Celsius("t_C")).Value
        ),
        Quantity.Of(
            "algae.eppley_mu_max",
            "t_C",
            inputs => AlgalGrowth.EppleyDivisionsPerDay(inputs.Celsius("t_C")).Value
        ),
        Quantity.Of(
            "algae.cell_carbon",
            "volume_um3, kind",
            inputs =>
                AlgalCells.CarbonPicograms(
                    inputs.Number("volume_um3"),
                    inputs.OneOf("kind", ("diatom", true), ("other", false))
                )
        ),
        Quantity.Of(
            "algae.sphere_volume",
            "diameter_um",
            inputs => AlgalCells.SphereCubicMicrometres(inputs.Number("diameter_um"))
        ),
        Quantity.Of(
            "algae.uptake",
            "rho_max_pmol_per_cell_h, ks_umol_per_L, conc_umol_per_L, cells_per_mL, molar_mass",
            inputs =>
                AlgalCells.UptakeMilligramsPerLitreDay(
                    inputs.Number("rho_max_pmol_per_cell_h"),
                    inputs.Number("ks_umol_per_L"),
                    inputs.Number("conc_umol_per_L"),
                    inputs.Cells("cells_per_mL"),
                    inputs.Number("molar_mass")
                )
        ),
    ];
}
