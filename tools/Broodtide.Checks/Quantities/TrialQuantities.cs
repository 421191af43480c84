using Broodtide.Science.Comparing;
using Broodtide.Science.Trials;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Comparing vessels, and how many of them a trial needs.</summary>
internal static class TrialQuantities
{
    private const string Wanted = "p1, p2, alpha, power";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "design.n_per_arm",
            $"{Wanted}, variance",
            inputs =>
                inputs.OneOf("variance", ("pooled", true), ("unpooled", false))
                    ? SampleSizes.LarvaePerArmPooled(Find(inputs, "p1", "p2"))
                    : SampleSizes.LarvaePerArm(Find(inputs, "p1", "p2"))
        ),
        Quantity.Of(
            "design.design_effect",
            "m, icc",
            inputs => SampleSizes.DesignEffect(inputs.Number("m"), inputs.Fraction("icc"))
        ),
        Quantity.Of(
            "design.containers_per_arm",
            $"{Wanted}, m, icc",
            inputs =>
                SampleSizes.VesselsPerArm(
                    Find(inputs, "p1", "p2"),
                    inputs.Number("m"),
                    inputs.Fraction("icc")
                )
        ),
        Quantity.Of(
            "design.containers_per_arm_limit",
            $"{Wanted}, icc",
            inputs => SampleSizes.FewestVesselsPerArm(Find(inputs, "p1", "p2"), inputs.Fraction("icc"))
        ),
        Quantity.Of(
            "design.hayes_bennett_clusters",
            "p0, p1, m, k, alpha, power",
            inputs =>
                SampleSizes.VesselsByVariation(
                    Find(inputs, "p0", "p1"),
                    inputs.Number("m"),
                    inputs.Number("k")
                )
        ),
        Quantity.Of("design.smallest_permutation_p", "layout, (n1), (n2), (pairs)", SmallestP),
        Quantity.Of(
            "design.t_test_n",
            "delta, sd, alpha, power",
            inputs =>
                SampleSizes.VesselsByMeans(
                    inputs.Number("delta"),
                    inputs.Number("sd"),
                    inputs.Fraction("alpha"),
                    inputs.Fraction("power")
                )
        ),
        Quantity.Of(
            "design.cohen_h",
            "p1, p2",
            inputs => NextPoint.CohensH(inputs.Fraction("p1"), inputs.Fraction("p2"))
        ),
        Quantity.Of(
            "design.prob_better",
            "a1, b1, a2, b2",
            inputs =>
                NextPoint
                    .FirstIsHigher(
                        (inputs.Number("a1"), inputs.Number("b1")),
                        (inputs.Number("a2"), inputs.Number("b2"))
                    )
                    .Value
        ),
        Quantity.Of(
            "design.expected_improvement",
            "mean, sd, best",
            inputs =>
                NextPoint.ExpectedImprovement(
                    inputs.Number("mean"),
                    inputs.Number("sd"),
                    inputs.Number("best")
                )
        ),
        Quantity.Of(
            "compare.permutation_p",
            "a, b",
            inputs => VesselPermutation.OfGroups(inputs.Numbers("a"), inputs.Numbers("b")).P.Value
        ),
        Quantity.Of(
            "compare.welch_logit.t",
            "a, b",
            inputs => WelchOnLogits.Of(inputs.Numbers("a"), inputs.Numbers("b")).T
        ),
        Quantity.Of(
            "compare.welch_logit.p",
            "a, b",
            inputs => WelchOnLogits.Of(inputs.Numbers("a"), inputs.Numbers("b")).P.Value
        ),
        Quantity.Of(
            "multiple.rejections",
            "p_values, method, level",
            inputs => ManyComparisons.Finds(Values(inputs), Rule(inputs), inputs.Fraction("level"))
        ),
        Quantity.Of(
            "multiple.adjusted_p",
            "p_values, method, index",
            inputs => ManyComparisons.Adjusted(Values(inputs), Rule(inputs))[inputs.Whole("index") - 1].Value
        ),
    ];

    private static WantedFind Find(CheckInputs inputs, string first, string second) =>
        new(
            inputs.Fraction(first),
            inputs.Fraction(second),
            inputs.Fraction("alpha"),
            inputs.Fraction("power")
        );

    private static double SmallestP(CheckInputs inputs) =>
        inputs.OneOf("layout", ("unpaired", false), ("paired", true))
            ? VesselPermutation.SmallestPOfPairs(inputs.Whole("pairs")).Value
            : VesselPermutation.SmallestP(inputs.Whole("n1"), inputs.Whole("n2")).Value;

    private static Probability[] Values(CheckInputs inputs) =>
        [.. inputs.Numbers("p_values").Select(Probability.FromFraction)];

    private static ManyComparisonsRule Rule(CheckInputs inputs) =>
        inputs.OneOf(
            "method",
            ("bh", ManyComparisonsRule.BenjaminiHochberg),
            ("holm", ManyComparisonsRule.Holm),
            ("bonferroni", ManyComparisonsRule.Bonferroni)
        );
}
