using Broodtide.Science.Comparing;
using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Dose and response.</summary>
internal static class DoseQuantities
{
    private const string Keys = "x, successes, trials, link, (data)";
    private const string GroupKeys = $"{Keys}, (by)";
    private const string AbbottKeys = "x, trials, successes, link, x_scale";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.WithData(
            "dose.coef",
            $"{GroupKeys}, coef",
            (inputs, around) => [Grouped(inputs, around).Fit.Coefficients.Named(inputs.Word("coef")).Estimate]
        ),
        Quantity.WithData(
            "dose.se",
            $"{Keys}, coef",
            (inputs, around) =>
                [Line(inputs, around).Fit.Coefficients.Named(inputs.Word("coef")).StandardError!.Value]
        ),
        Quantity.WithData(
            "dose.deviance",
            GroupKeys,
            (inputs, around) => [Grouped(inputs, around).Fit.Deviance]
        ),
        Quantity.WithData(
            "dose.pearson_x2",
            Keys,
            (inputs, around) => [Line(inputs, around).Fit.PearsonChiSquare]
        ),
        Quantity.WithData(
            "dose.ld",
            $"{GroupKeys}, p, (group)",
            (inputs, around) => [DoseAt(inputs, around)]
        ),
        Quantity.WithData(
            "dose.ld_se",
            $"{Keys}, p",
            (inputs, around) => [Line(inputs, around).DoseErrorAt(inputs.Fraction("p"))]
        ),
        Quantity.WithData(
            "dose.ld_fieller_ci.lower",
            $"{Keys}, p, level",
            (inputs, around) => [Within(inputs, around).Lower]
        ),
        Quantity.WithData(
            "dose.ld_fieller_ci.upper",
            $"{Keys}, p, level",
            (inputs, around) => [Within(inputs, around).Upper]
        ),
        Quantity.WithData(
            "dose.fitted",
            "x, successes, (trials), link, at, (data), (failures)",
            (inputs, around) => [Line(inputs, around).ShareAt(inputs.Number("at"))]
        ),
        Quantity.Of(
            "dose.abbott_fit.natural_mortality",
            AbbottKeys,
            inputs => Abbott(inputs).NaturalShare.Value
        ),
        Quantity.Of("dose.abbott_fit.a", AbbottKeys, inputs => Abbott(inputs).Intercept),
        Quantity.Of("dose.abbott_fit.b", AbbottKeys, inputs => Abbott(inputs).Slope),
        Quantity.Of(
            "dose.abbott_fit.lc50",
            AbbottKeys,
            inputs =>
            {
                var half = Abbott(inputs).HalfDose(inputs.Link());
                return IsLogarithmic(inputs) ? Math.Pow(10, half) : half;
            }
        ),
    ];

    private static DoseResponse Line(CheckInputs inputs, CheckSurroundings around)
    {
        var (doses, tallies) = Rows(inputs, around);
        return DoseResponse.Of(doses, tallies, inputs.Link());
    }

    private static Limits Within(CheckInputs inputs, CheckSurroundings around) =>
        Line(inputs, around).DoseWithin(inputs.Fraction("p"), inputs.Fraction("level"))
        ?? throw new ArgumentException("The slope could be 0: no finite limits.", nameof(inputs));

    // One intercept for each level of a factor, named after the level, and one slope.
    private static (BinomialFit Fit, string First) Grouped(CheckInputs inputs, CheckSurroundings around)
    {
        if (!inputs.Has("by"))
        {
            return (Line(inputs, around).Fit, "");
        }

        var (doses, tallies) = Rows(inputs, around);
        var by = inputs.Word("by");
        var levels = around.Table(inputs.Word("data")).Texts(by);
        var first = levels.Order(StringComparer.Ordinal).First();
        var design = RegressionDesign.OfFactors([new(by, levels, first)], [by]).With("slope", doses);
        return (BinomialRegression.Fit(tallies, design, inputs.Link()), first);
    }

    private static double DoseAt(CheckInputs inputs, CheckSurroundings around)
    {
        var share = inputs.Fraction("p");
        if (!inputs.Has("by"))
        {
            return Line(inputs, around).DoseAt(share);
        }

        var (fit, first) = Grouped(inputs, around);
        var group = inputs.Word("group");
        var height =
            fit.Coefficients.Named(RegressionDesign.Intercept).Estimate
            + (group == first ? 0 : fit.Coefficients.Named(inputs.Word("by") + group).Estimate);
        return (Math.Log(share.Value / share.Opposite) - height) / fit.Coefficients.Named("slope").Estimate;
    }

    private static (double[] Doses, Tally[] Tallies) Rows(CheckInputs inputs, CheckSurroundings around)
    {
        double[] Column(string key) =>
            inputs.Has("data")
                ? around.Table(inputs.Word("data")).Numbers(inputs.Word(key))
                : inputs.Numbers(key);
        int[] Whole(string key) => [.. Column(key).Select(number => CheckWhole.Of(number, key))];
        var happened = Whole("successes");
        var trials = inputs.Has("trials")
            ? Whole("trials")
            : [.. happened.Zip(Whole("failures"), (did, didNot) => did + didNot)];
        return (Column("x"), [.. happened.Zip(trials, (y, n) => new Tally(y, n))]);
    }

    private static bool IsLogarithmic(CheckInputs inputs) =>
        inputs.OneOf("x_scale", ("log10", true), ("linear", false));

    private static NaturalLosses Abbott(CheckInputs inputs)
    {
        var doses = inputs.Numbers("x");
        var tallies = inputs.Wholes("successes").Zip(inputs.Wholes("trials"), (y, n) => new Tally(y, n));
        return NaturalLosses.Of(
            [
                .. doses.Select(dose =>
                    dose <= 0 ? double.NegativeInfinity
                    : IsLogarithmic(inputs) ? Math.Log10(dose)
                    : dose
                ),
            ],
            [.. tallies],
            inputs.Link()
        );
    }
}
