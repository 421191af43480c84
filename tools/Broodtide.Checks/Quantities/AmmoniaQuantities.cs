using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Un-ionised ammonia.</summary>
internal static class AmmoniaQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "ammonia.percent_fresh_water",
            "t_C, pH",
            inputs => Ammonia.FractionInFreshWater(inputs.Celsius("t_C"), inputs.Number("pH")).Value.Percent
        ),
        Quantity.Of(
            "ammonia.percent_bower_bidwell",
            "S, t_C, pH_nbs",
            inputs =>
                Ammonia
                    .FractionByBowerBidwell(
                        inputs.Salinity("S"),
                        inputs.Celsius("t_C"),
                        inputs.Number("pH_nbs")
                    )
                    .Value.Percent
        ),
        Quantity.Of(
            "ammonia.percent_hampson",
            "S, t_C, pH_nbs",
            inputs =>
                Ammonia
                    .Fraction(inputs.Salinity("S"), inputs.Celsius("t_C"), inputs.Number("pH_nbs"))
                    .Value.Percent
        ),
        Quantity.Of(
            "ammonia.pka_clegg_whitfield",
            "S, t_C",
            inputs =>
                AmmoniaDissociation
                    .CleggWhitfieldTotalScale(inputs.Salinity("S"), inputs.Celsius("t_C"))
                    .Value
        ),
        Quantity.Of(
            "ammonia.nh3_n_from_tan",
            "S, t_C, pH, TAN",
            inputs =>
                Ammonia
                    .UnionisedNitrogen(
                        inputs.MilligramsPerLitre("TAN"),
                        Ammonia
                            .Fraction(inputs.Salinity("S"), inputs.Celsius("t_C"), inputs.Number("pH"))
                            .Value
                    )
                    .MilligramsPerLitre
        ),
    ];
}
