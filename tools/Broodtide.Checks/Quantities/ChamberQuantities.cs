using Broodtide.Science.Counting;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Cells in a counting chamber.</summary>
internal static class ChamberQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "count.haemocytometer",
            "count, squares, square_area_mm2, depth_mm, dilution",
            inputs =>
                ChamberCount
                    .Diluted(
                        inputs.Whole("count"),
                        new(
                            inputs.Whole("squares"),
                            inputs.Number("square_area_mm2"),
                            inputs.Number("depth_mm")
                        ),
                        inputs.Number("dilution")
                    )
                    .PerMillilitre
        ),
        Quantity.Of(
            "count.sedgewick_rafter_fields",
            "count, fields, field_area_mm2, depth_mm, concentration_factor",
            inputs =>
                Concentrated(
                    inputs,
                    new(inputs.Whole("fields"), inputs.Number("field_area_mm2"), inputs.Number("depth_mm"))
                )
        ),
        Quantity.Of(
            "count.sedgewick_rafter_strips",
            "count, strips, length_mm, width_mm, depth_mm, concentration_factor",
            inputs =>
                Concentrated(
                    inputs,
                    new(
                        inputs.Whole("strips"),
                        inputs.Number("length_mm") * inputs.Number("width_mm"),
                        inputs.Number("depth_mm")
                    )
                )
        ),
        Quantity.Of(
            "count.drops",
            "counts, drop_mL",
            inputs =>
                ChamberCount
                    .Drops(inputs.Wholes("counts"), Volume.FromMillilitres(inputs.Number("drop_mL")))
                    .PerMillilitre
        ),
        Quantity.Of(
            "count.relative_error_percent",
            "count",
            inputs => PoissonCount.RelativeErrorPercent(inputs.Whole("count"))
        ),
    ];

    private static double Concentrated(CheckInputs inputs, ChamberPart part) =>
        ChamberCount
            .Concentrated(inputs.Whole("count"), part, inputs.Number("concentration_factor"))
            .PerMillilitre;
}
