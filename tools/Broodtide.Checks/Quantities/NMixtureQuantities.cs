using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Numbers and detection from repeated counts at several places.</summary>
internal static class NMixtureQuantities
{
    private const string Keys = "data, counts, mixture, (lambda_covariate), (p_covariate), n_max";
    private const string PlainKeys = "data, counts, mixture, n_max";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.WithData(
            "nmixture.coef",
            $"{Keys}, part, coef",
            (inputs, around) => [Coefficient(inputs, Fit(inputs, around))]
        ),
        Quantity.WithData("nmixture.loglik", Keys, (inputs, around) => [Fit(inputs, around).LogLikelihood]),
        Quantity.WithData(
            "nmixture.lambda",
            PlainKeys,
            (inputs, around) => [Math.Exp(Intercept(Fit(inputs, around).Number))]
        ),
        Quantity.WithData(
            "nmixture.p",
            PlainKeys,
            (inputs, around) => [1 / (1 + Math.Exp(-Intercept(Fit(inputs, around).Detection)))]
        ),
    ];

    private static double Coefficient(CheckInputs inputs, NMixtureFit fit) =>
        inputs.Word("part") == "alpha"
            ? fit.LogClumping ?? double.NaN
            : inputs
                .OneOf("part", ("lambda", fit.Number), ("p", fit.Detection))
                .Named(inputs.Word("coef"))
                .Estimate;

    private static double Intercept(IReadOnlyList<Coefficient> coefficients) =>
        coefficients.Named(RegressionDesign.Intercept).Estimate;

    private static NMixtureFit Fit(CheckInputs inputs, CheckSurroundings around)
    {
        var table = around.Table(inputs.Word("data"));
        var visits = inputs.Words("counts").Select(table.Numbers).ToArray();
        var places = visits[0].Length;
        int?[][] counts =
        [
            .. Enumerable
                .Range(0, places)
                .Select(place =>
                    visits
                        .Select(visit => double.IsNaN(visit[place]) ? (int?)null : (int)visit[place])
                        .ToArray()
                ),
        ];
        var number = RegressionDesign.OneMean(places);
        if (inputs.Has("lambda_covariate"))
        {
            var column = inputs.Word("lambda_covariate");
            number = number.With(column, table.Numbers(column));
        }

        var looks = places * visits.Length;
        var detection = RegressionDesign.OneMean(looks);
        if (inputs.Has("p_covariate"))
        {
            // As many equally spaced values from -1 to 1 as there are counts, place by place.
            inputs.OneOf("p_covariate", ("ramp", true));
            detection = detection.With(
                "ramp",
                [.. Enumerable.Range(0, looks).Select(look => (2.0 * look / (looks - 1)) - 1)]
            );
        }

        var law = inputs.OneOf(
            "mixture",
            ("poisson", NumberLaw.Poisson),
            ("negbin", NumberLaw.NegativeBinomial)
        );
        return NMixture.Fit(counts, new(number, detection, law, inputs.Whole("n_max")));
    }
}
