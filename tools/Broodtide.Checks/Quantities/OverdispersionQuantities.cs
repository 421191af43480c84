using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Vessels that differ more than by chance.</summary>
internal static class OverdispersionQuantities
{
    private const string Keys = TallyInputs.TallyKeys;
    private const string TermKeys = TallyInputs.TermKeys;
    private const string EffectKeys = $"{TermKeys}, quadrature_points";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Of("overdisp.betabinomial_fit.mean", Keys, rows => OneMean(rows).Mean()),
        Of("overdisp.betabinomial_fit.icc", Keys, rows => OneMean(rows).Correlation),
        Of("overdisp.betabinomial_fit.loglik", Keys, rows => OneMean(rows).LogLikelihood),
        Of("overdisp.tarone_z", Keys, Overdispersion.TaroneZ),
        Of("overdisp.icc_anova", Keys, Overdispersion.CorrelationByVariance),
        Of("overdisp.pearson_x2", Keys, Overdispersion.PearsonChiSquare),
        Quantity.WithData(
            "overdisp.betabinomial_regression.coef",
            $"{TermKeys}, coef",
            (inputs, around) => [Regression(inputs, around).Coefficients.Named(inputs.Word("coef")).Estimate]
        ),
        Quantity.WithData(
            "overdisp.betabinomial_regression.icc",
            TermKeys,
            (inputs, around) => [Regression(inputs, around).Correlation]
        ),
        Quantity.WithData(
            "overdisp.glmm_fit.coef",
            $"{EffectKeys}, coef",
            (inputs, around) => [Effects(inputs, around).Coefficients.Named(inputs.Word("coef")).Estimate]
        ),
        Quantity.WithData(
            "overdisp.glmm_fit.sd",
            EffectKeys,
            (inputs, around) => [Effects(inputs, around).VesselSd]
        ),
    ];

    private static Quantity Of(string name, string keys, Func<IReadOnlyList<Tally>, double> compute) =>
        Quantity.WithData(name, keys, (inputs, around) => [compute(inputs.Tallies(inputs.Rows(around)))]);

    private static BetaBinomialFit OneMean(IReadOnlyList<Tally> rows) =>
        BetaBinomialRegression.Fit(rows, RegressionDesign.OneMean(rows.Count));

    private static BetaBinomialFit Regression(CheckInputs inputs, CheckSurroundings around)
    {
        LogitOnly(inputs);
        var rows = inputs.Rows(around);
        return BetaBinomialRegression.Fit(inputs.Tallies(rows), inputs.Design(rows));
    }

    private static VesselEffectFit Effects(CheckInputs inputs, CheckSurroundings around)
    {
        LogitOnly(inputs);
        var rows = inputs.Rows(around);
        return VesselEffectRegression.Fit(
            inputs.Tallies(rows),
            inputs.Design(rows),
            inputs.Whole("quadrature_points")
        );
    }

    private static void LogitOnly(CheckInputs inputs)
    {
        if (inputs.Link() != BinomialLink.Logit)
        {
            throw new ArgumentException("Only the logit link is computed here.", nameof(inputs));
        }
    }
}
