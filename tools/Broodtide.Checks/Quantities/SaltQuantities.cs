using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Making sea water.</summary>
internal static class SaltQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "salt.ion_concentration",
            "ion, S",
            inputs => SeaSaltComposition.GramsPerKilogram(inputs.Word("ion"), inputs.Salinity("S"))
        ),
        Quantity.Of(
            "salt.kester_mass",
            "salt, S",
            inputs => KesterRecipe.GramsPerKilogram(inputs.Word("salt"), inputs.Salinity("S"))
        ),
        Quantity.Of(
            "salt.kester_total",
            "form, S",
            inputs =>
                inputs.OneOf<Func<Salinity, double>>(
                    "form",
                    ("anhydrous", KesterRecipe.AnhydrousGramsPerKilogram),
                    ("as_weighed", KesterRecipe.WeighedGramsPerKilogram)
                )(inputs.Salinity("S"))
        ),
        Quantity.Of(
            "salt.anhydrous_per_litre",
            "S, t_C",
            inputs =>
                MakingSeaWater
                    .DrySaltPerLitre(inputs.Salinity("S"), inputs.Celsius("t_C"))
                    .Value.GramsPerLitre
        ),
        Quantity.Of(
            "salt.anhydrous_per_kg_water",
            "S",
            inputs => MakingSeaWater.DryGramsPerKilogramOfWater(inputs.Salinity("S"))
        ),
        Quantity.Of(
            "salt.mix_to_weigh",
            "S, V_final_L, t_C, water_fraction_of_product",
            inputs =>
                MakingSeaWater
                    .ForVolume(
                        inputs.Salinity("S"),
                        inputs.Litres("V_final_L"),
                        inputs.Celsius("t_C"),
                        SaltMix.WithWaterShare(inputs.Number("water_fraction_of_product"))
                    )
                    .Value.Product.Grams
        ),
    ];
}
