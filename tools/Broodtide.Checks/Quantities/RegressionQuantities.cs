using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Binomial regression.</summary>
internal static class RegressionQuantities
{
    private const string Keys = TallyInputs.TermKeys;

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.WithData("glm.deviance", Keys, (inputs, around) => [Fit(inputs, around).Deviance]),
        Quantity.WithData("glm.pearson_phi", Keys, (inputs, around) => [Fit(inputs, around).Dispersion]),
        Quantity.WithData("glm.quasi_f", $"{Keys}, term", (inputs, around) => [QuasiF(inputs, around)]),
        Quantity.WithData(
            "glm.coef",
            $"{Keys}, coef",
            (inputs, around) => [Fit(inputs, around).Coefficients.Named(inputs.Word("coef")).Estimate]
        ),
    ];

    private static BinomialFit Fit(CheckInputs inputs, CheckSurroundings around)
    {
        var rows = inputs.Rows(around);
        return BinomialRegression.Fit(inputs.Tallies(rows), inputs.Design(rows), inputs.Link());
    }

    private static double QuasiF(CheckInputs inputs, CheckSurroundings around)
    {
        var rows = inputs.Rows(around);
        return BinomialRegression.QuasiF(
            inputs.Tallies(rows),
            inputs.Design(rows),
            inputs.Word("term"),
            inputs.Link()
        );
    }
}
