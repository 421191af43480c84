using Broodtide.Oracles.Calibration;

namespace Broodtide.Checks.Quantities;

/// <summary>The coverage gate.</summary>
internal static class CoverageQuantities
{
    private const string Keys = "replicates, nominal, level";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of("coverage.accept.lower", Keys, inputs => Accepted(inputs).Lower),
        Quantity.Of("coverage.accept.upper", Keys, inputs => Accepted(inputs).Upper),
    ];

    private static CountRange Accepted(CheckInputs inputs) =>
        CoverageGate.Accept(
            inputs.WholeNumber("replicates", 1),
            inputs.Number("nominal"),
            inputs.Number("level")
        );
}
