using Broodtide.Oracles.Calibration;

namespace Broodtide.Checks.Quantities;

/// <summary>Simulation-based calibration.</summary>
internal static class SbcQuantities
{
    private const string BinKeys = "simulations, bins, level";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of("sbc.bin_count_accept.lower", BinKeys, inputs => Bin(inputs).Lower),
        Quantity.Of("sbc.bin_count_accept.upper", BinKeys, inputs => Bin(inputs).Upper),
        Quantity.Of(
            "sbc.chi2_critical",
            "bins, level",
            inputs => RankHistogram.CriticalChiSquare(inputs.WholeNumber("bins", 2), inputs.Number("level"))
        ),
    ];

    private static CountRange Bin(CheckInputs inputs) =>
        RankHistogram.AcceptBin(
            inputs.WholeNumber("simulations", 1),
            inputs.WholeNumber("bins", 1),
            inputs.Number("level")
        );
}
