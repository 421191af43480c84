using Broodtide.Oracles.Populations;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>The exact population filter.</summary>
internal static class PopulationQuantities
{
    public const string CountKeys = "survival, add, remove, obs_step, obs_kind, obs_x, obs_a, obs_b, n_max";
    private const string Keys = $"init, (n0), {CountKeys}, (mean), (k), (n0_max)";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "popfilter.loglik",
            Keys,
            inputs => ExactPopulationFilter.Run(Course(inputs))[^1].LogLikelihood
        ),
        Quantity.Of("popfilter.mean", $"{Keys}, step", inputs => Belief(inputs).Mean),
        Quantity.Of("popfilter.sd", $"{Keys}, step", inputs => Belief(inputs).StandardDeviation),
        Quantity.Of(
            "popfilter.quantile",
            $"{Keys}, step, p",
            inputs => Belief(inputs).Quantile(inputs.Number("p"))
        ),
    ];

    /// <summary>The course that the keys tell.</summary>
    public static PopulationCourse Course(CheckInputs inputs)
    {
        var survival = inputs.Numbers("survival");
        var added = inputs.WholeNumbers("add");
        var removed = inputs.WholeNumbers("remove");
        var counts = Counts(inputs);
        return
            added.Length == survival.Length
            && removed.Length == survival.Length
            && counts.All(count => count.Step >= 1 && count.Step <= survival.Length)
            ? new(
                inputs.OneOf<Func<PopulationStart>>(
                    "init",
                    ("known", () => new PopulationStart.Known(inputs.WholeNumber("n0", 0))),
                    ("poisson", () => new PopulationStart.Scattered(inputs.Number("mean"))),
                    ("negbin", () => new PopulationStart.Clumped(inputs.Number("mean"), inputs.Number("k")))
                )(),
                [
                    .. survival.Select(
                        (share, i) =>
                            new PopulationStep(
                                share,
                                added[i],
                                [.. counts.Where(count => count.Step == i + 1).Select(count => count.Seen)],
                                removed[i]
                            )
                    ),
                ],
                inputs.WholeNumber("n_max", 1),
                inputs.Has("n0_max") ? inputs.WholeNumber("n0_max", 0) : null
            )
            : throw new ArgumentException("survival, add and remove need an item a step", nameof(inputs));
    }

    private static PopulationBelief Belief(CheckInputs inputs)
    {
        var beliefs = ExactPopulationFilter.Run(Course(inputs));
        return beliefs[inputs.Place("step", beliefs.Count)];
    }

    private static (int Step, CountSeen Seen)[] Counts(CheckInputs inputs)
    {
        var steps = inputs.WholeNumbers("obs_step");
        var kinds = inputs.Words("obs_kind");
        var seen = inputs.WholeNumbers("obs_x");
        var a = inputs.Numbers("obs_a");
        var b = inputs.Numbers("obs_b");
        return
            kinds.Count == steps.Length
            && seen.Length == steps.Length
            && a.Length == steps.Length
            && b.Length == steps.Length
            ? [.. steps.Select((step, i) => (step, Count(kinds[i], seen[i], a[i], b[i])))]
            : throw new ArgumentException("the keys obs_ need as many items each", nameof(inputs));
    }

    private static CountSeen Count(string kind, int seen, double a, double b) =>
        kind switch
        {
            "binomial" => Only(b, new CountSeen.Detected(seen, a)),
            "poisson" => Only(b, new CountSeen.Scattered(seen, a)),
            "negbin" => new CountSeen.Clumped(seen, a, b),
            "betabinomial" => new CountSeen.Photographed(seen, a, b),
            "exact" => Only(a, Only(b, new CountSeen.Exact(seen))),
            _ => throw new ArgumentException(
                $"{kind}: allowed is binomial, poisson, negbin, betabinomial, exact",
                nameof(kind)
            ),
        };

    // An unused number is 0.
    private static CountSeen Only(double unused, CountSeen count)
    {
        Finite.Within(unused, 0, 0);
        return count;
    }
}
