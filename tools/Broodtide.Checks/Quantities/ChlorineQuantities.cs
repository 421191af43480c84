using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Chlorine and thiosulfate.</summary>
internal static class ChlorineQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "chlorine.thiosulfate_per_chlorine",
            "form, reaction",
            inputs =>
                Chlorine.ThiosulfatePerGram(
                    inputs.OneOf(
                        "form",
                        ("pentahydrate", ThiosulfateForm.Pentahydrate),
                        ("anhydrous", ThiosulfateForm.Anhydrous)
                    ),
                    inputs.OneOf(
                        "reaction",
                        ("tetrathionate", ThiosulfateReaction.Tetrathionate),
                        ("sulfur", ThiosulfateReaction.Sulfur),
                        ("sulfate", ThiosulfateReaction.Sulfate)
                    )
                )
        ),
        Quantity.Of(
            "chlorine.available_from_naocl",
            "naocl_g_per_L",
            inputs => Chlorine.AvailableIn(inputs.GramsPerLitre("naocl_g_per_L")).GramsPerLitre
        ),
        Quantity.Of(
            "chlorine.bleach_volume",
            "dose_mg_per_L, V_L, available_chlorine_g_per_L",
            inputs =>
                Chlorine
                    .BleachFor(
                        inputs.MilligramsPerLitre("dose_mg_per_L"),
                        inputs.Litres("V_L"),
                        inputs.GramsPerLitre("available_chlorine_g_per_L")
                    )
                    .Millilitres
        ),
        Quantity.Of(
            "chlorine.thiosulfate_mass",
            "residual_mg_per_L, V_L, ratio_g_per_g",
            inputs =>
                Chlorine
                    .ThiosulfateFor(
                        inputs.MilligramsPerLitre("residual_mg_per_L"),
                        inputs.Litres("V_L"),
                        inputs.Number("ratio_g_per_g")
                    )
                    .Grams
        ),
    ];
}
