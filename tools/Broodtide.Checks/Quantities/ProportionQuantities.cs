using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Limits of proportions and of their differences.</summary>
internal static class ProportionQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        .. Both("prop.wilson_ci", "x, n, level", inputs => Proportions.Wilson(One(inputs), Level(inputs))),
        .. Both(
            "prop.clopper_pearson_ci",
            "x, n, level",
            inputs => Proportions.ClopperPearson(One(inputs), Level(inputs))
        ),
        .. Both(
            "prop.jeffreys_ci",
            "x, n, level",
            inputs => Proportions.Jeffreys(One(inputs), Level(inputs))
        ),
        .. Both(
            "prop.diff_newcombe_ci",
            "x1, n1, x2, n2, level",
            inputs => ProportionDifference.Newcombe(Two(inputs), Level(inputs))
        ),
        .. Both(
            "prop.diff_agresti_caffo_ci",
            "x1, n1, x2, n2, level",
            inputs => ProportionDifference.AgrestiCaffo(Two(inputs), Level(inputs))
        ),
    ];

    private static Quantity[] Both(string name, string keys, Func<CheckInputs, Limits> limits) =>
        [
            Quantity.Of($"{name}.lower", keys, inputs => limits(inputs).Lower),
            Quantity.Of($"{name}.upper", keys, inputs => limits(inputs).Upper),
        ];

    private static Probability Level(CheckInputs inputs) => inputs.Fraction("level");

    private static Tally One(CheckInputs inputs) => new(inputs.Whole("x"), inputs.Whole("n"));

    private static TwoGroups Two(CheckInputs inputs) =>
        new(new(inputs.Whole("x1"), inputs.Whole("n1")), new(inputs.Whole("x2"), inputs.Whole("n2")));
}
