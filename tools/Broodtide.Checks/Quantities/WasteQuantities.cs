using Broodtide.Science.Waste;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Ammonia from food and animals, and what takes it away.</summary>
internal static class WasteQuantities
{
    // The start of the model in its published runs.
    private const double FirstTan = 0.05;

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "waste.tan_from_feed",
            "feed_g_per_d, protein, volume_L",
            inputs =>
                FeedWaste.TanOfEatenMilligramsPerLitreDay(
                    Mass.FromGrams(inputs.Number("feed_g_per_d")),
                    inputs.Fraction("protein"),
                    inputs.Litres("volume_L")
                )
        ),
        Quantity.Of(
            "waste.tan_coefficient",
            "factors",
            inputs => FeedWaste.Coefficient([.. inputs.Numbers("factors").Select(Probability.FromFraction)])
        ),
        Quantity.Of(
            "waste.tan_from_larvae",
            "larvae, dry_mg, rate_ug_per_mg_h, volume_L",
            inputs =>
                FeedWaste.TanOfLarvaeMilligramsPerLitreDay(
                    inputs.Number("larvae"),
                    Mass.FromMilligrams(inputs.Number("dry_mg")),
                    inputs.Number("rate_ug_per_mg_h"),
                    inputs.Litres("volume_L")
                )
        ),
        Quantity.Of(
            "waste.mass_per_nitrogen",
            "mol_per_mol_n, molar_mass",
            inputs =>
                Nitrification.GramsPerGramNitrogen(
                    inputs.Number("mol_per_mol_n"),
                    inputs.Number("molar_mass")
                )
        ),
        Quantity.Of(
            "waste.biomass_per_nitrogen",
            "c, h, o, n, p",
            inputs => Formula(inputs).GramsPerGramNitrogen
        ),
        Quantity.Of(
            "waste.biofilter_area",
            "tan_mg_per_d, rate_g_per_m2_d",
            inputs =>
                Nitrification.SurfaceSquareCentimetres(
                    inputs.Number("tan_mg_per_d"),
                    inputs.Number("rate_g_per_m2_d")
                )
        ),
        Quantity.Of(
            "waste.oxygen_demand",
            "c, h, o, n, nitrified",
            inputs => Formula(inputs).OxygenDemand(inputs.OneOf("nitrified", ("yes", true), ("no", false)))
        ),
        Quantity.Of(
            "waste.nitrogen_percent",
            "c, h, o, n, p",
            inputs => 100 * Formula(inputs).NitrogenFraction
        ),
        Quantity.Of(
            "waste.tan_from_dry_mass",
            "dry_mg_per_L, n_fraction, mineralised_fraction",
            inputs =>
                FeedWaste
                    .TanOfDecay(
                        inputs.MilligramsPerLitre("dry_mg_per_L"),
                        inputs.Fraction("n_fraction"),
                        inputs.Fraction("mineralised_fraction")
                    )
                    .MilligramsPerLitre
        ),
        Quantity.Of(
            "waste.tan_balance",
            "c0, production_per_d, removal_per_d, days",
            inputs =>
                Nitrification
                    .Balance(
                        inputs.MilligramsPerLitre("c0"),
                        inputs.Number("production_per_d"),
                        inputs.Number("removal_per_d"),
                        inputs.Number("days")
                    )
                    .MilligramsPerLitre
        ),
        Quantity.Of(
            "waste.container_tan",
            "a0, grazing_per_d, feed_per_d, filter_vmax_per_d, change_fraction, day",
            inputs =>
                SimpleContainer
                    .After(
                        new(inputs.Number("a0"), 0, FirstTan, 0),
                        new()
                        {
                            GrazingPerDay = inputs.Number("grazing_per_d"),
                            FeedPerDay = inputs.Number("feed_per_d"),
                            FilterPerDay = inputs.Number("filter_vmax_per_d"),
                            ChangedPerDay = inputs.Fraction("change_fraction"),
                        },
                        inputs.Whole("day")
                    )
                    .Tan
        ),
    ];

    private static ElementalFormula Formula(CheckInputs inputs) =>
        new(
            inputs.Number("c"),
            inputs.Number("h"),
            inputs.Number("o"),
            inputs.Number("n"),
            inputs.NumberOr("p", 0)
        );
}
