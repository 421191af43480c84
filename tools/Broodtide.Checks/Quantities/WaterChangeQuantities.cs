using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>What water changes leave.</summary>
internal static class WaterChangeQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "water_change.one_shot",
            "c0, fraction, c_in",
            inputs =>
                WaterChange
                    .After(
                        inputs.MilligramsPerLitre("c0"),
                        inputs.Fraction("fraction"),
                        inputs.MilligramsPerLitre("c_in")
                    )
                    .MilligramsPerLitre
        ),
        Quantity.Of(
            "water_change.repeated",
            "c0, fraction, changes, c_in",
            inputs =>
                WaterChange
                    .After(
                        inputs.MilligramsPerLitre("c0"),
                        inputs.Fraction("fraction"),
                        inputs.MilligramsPerLitre("c_in"),
                        inputs.Whole("changes")
                    )
                    .MilligramsPerLitre
        ),
        Quantity.Of(
            "water_change.continuous",
            "c0, volumes, c_in",
            inputs =>
                WaterChange
                    .AfterFlow(
                        inputs.MilligramsPerLitre("c0"),
                        inputs.Number("volumes"),
                        inputs.MilligramsPerLitre("c_in")
                    )
                    .MilligramsPerLitre
        ),
        Quantity.Of(
            "water_change.washout_volumes",
            "residual",
            inputs => WaterChange.VolumesUntilLeft(inputs.Fraction("residual"))
        ),
        Quantity.Of("water_change.steady", "production_per_d, fraction, when", Steady),
        Quantity.Of(
            "water_change.fresh_water_to_add",
            "volume_L, s0, s1",
            // By mass; that a litre weighs a kilogram is the supposition of the row.
            inputs =>
                Mixing
                    .FreshWaterToLower(
                        Mass.FromKilograms(inputs.Number("volume_L")),
                        inputs.Salinity("s0"),
                        inputs.Salinity("s1")
                    )
                    .Kilograms
        ),
    ];

    private static double Steady(CheckInputs inputs)
    {
        var (before, after) = WaterChange.Steady(
            inputs.MilligramsPerLitre("production_per_d"),
            inputs.Fraction("fraction")
        );
        return inputs.OneOf("when", ("before", before), ("after", after)).MilligramsPerLitre;
    }
}
