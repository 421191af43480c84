using System.Collections.Concurrent;
using Broodtide.Checks;

namespace Broodtide.Science.Tests;

/// <summary>
/// An answer that does not move with its inputs may have been looked up. Each number of each row is moved by 1 %
/// (a zero to 0.01), and the answer must move too, or the reason why not stands here.
/// </summary>
public sealed class ChecksSensitivityTests
{
    private const string Steps = "a whole number moves in steps, here wider than the change";

    private static readonly Exception[] Exceptions =
    [
        new("density.teos10", "SA_g_per_kg", _ => true, "follows from S and is not used"),
        new("osmotic.coefficient", "p_dbar", _ => true, "the polynomial is for the surface"),
        new("ammonia.percent_bower_bidwell", "S", _ => true, "one table for all of S 32 to 40"),
        new(
            "salinity.from_hydrometer",
            "gamma_per_C",
            inputs => inputs.Number("t_C").Equals(inputs.Number("calibrated_C")),
            "glass at the temperature of its marks has not swollen"
        ),
        new(
            "evaporation.still_air",
            "P_Pa",
            inputs => inputs.Number("water_C") < inputs.Number("air_C"),
            "no natural stream over cooler water, and the other term knows no air pressure"
        ),
        new("bayes.normal_normal.sd", "prior_mean", _ => true, "the spread does not depend on the place"),
        new("bayes.normal_normal.sd", "observations", _ => true, "the spread does not depend on the place"),
        new("score.interval", "y", Inside, "an interval that holds scores its width"),
        new("score.interval", "alpha", Inside, "an interval that holds scores its width"),
        new(
            "score.crps_ensemble",
            "members",
            inputs => inputs.Word("fair") == "yes",
            "the fair form does not feel how far the outermost members lie"
        ),
        new("surv.kaplan_meier", "t", _ => true, "the curve is level between deaths"),
        new("surv.kaplan_meier_se", "t", _ => true, "the curve is level between deaths"),
        new("surv.cumulative", "days", _ => true, "the share alive at the last count has no time in it"),
        new("stage.dkb_prob", "a", _ => true, "only the two boundaries of the stage count"),
        new("stage.dkb_prob", "b2", FarAhead, "nothing to see beyond the last boundary so early"),
        new("stage.dkb_prob", "t", FarAhead, "nothing to see beyond the last boundary so early"),
        new("stage.dkb_quantile", "b2", AtHalf, "half have passed at the boundary, whatever the spread"),
        new("stage.occupancy", "shapes", _ => true, "stages that come later do not count"),
        new("stage.occupancy", "scales", _ => true, "stages that come later do not count"),
        new("metamorphosis.thermal_quantile", "days", _ => true, "what comes after the day does not count"),
        new(
            "metamorphosis.thermal_quantile",
            "requirement_cv",
            AtHalf,
            "half are done at the median, whatever the spread"
        ),
        new("collect.optimal_yield", "mean_h", _ => true, "hatching later, gathered later, yields the same"),
        new("count.poisson_exact_ci.lower", "level", NoneSeen, "below none there is nothing"),
        new("count.binomial_n_exact_ci.lower", "level", NoneSeen, "below none there is nothing"),
        new("count.binomial_n_exact_ci.lower", "fraction", NoneSeen, "below none there is nothing"),
        new("prop.wilson_ci.lower", "level", NoneSeen, "below none there is nothing"),
        new("prop.clopper_pearson_ci.lower", "level", NoneSeen, "below none there is nothing"),
        new("prop.wilson_ci.upper", "level", AllSeen, "above all there is nothing"),
        new("prop.diff_newcombe_ci.upper", "level", AllAgainstNone, "above all there is nothing"),
        new("count.binomial_n_exact_ci.upper", "fraction", NoneSeen, Steps),
        new("count.posterior_n.quantile", "p", _ => true, Steps),
        new("count.photo_posterior.quantile", "p", _ => true, Steps),
        new("count.combined_posterior.quantile", "p", _ => true, Steps),
        new("count.combined_posterior.quantile", "fractions", _ => true, Steps),
        new("count.photo_posterior.mean", "n_max", _ => true, "so many are not possible any more"),
        new("count.photo_posterior.sd", "n_max", _ => true, "so many are not possible any more"),
        new("count.photo_posterior.quantile", "n_max", _ => true, "so many are not possible any more"),
        new("pit.ks_d", "values", _ => true, "only the value at the largest gap counts"),
        new(
            "kalman.local_level.filtered_mean",
            "var_eta",
            IsFirst,
            "no step has been made at the first value"
        ),
        .. new[] { "filtered_mean", "filtered_var" }.SelectMany(name =>
            new[] { "mean", "var" }.Select(key => new Exception(
                $"kalman.local_level.{name}",
                key,
                inputs => inputs.Number("t") >= 100,
                "the start is forgotten after a hundred values"
            ))
        ),
        .. new[]
        {
            "popfilter.loglik",
            "popfilter.mean",
            "popfilter.sd",
            "popfilter.quantile",
            "particle.mean_likelihood_ratio",
        }.Select(name => new Exception(name, "n_max", _ => true, "the largest number is far above all")),
        .. new[] { "popfilter.mean", "popfilter.sd" }.SelectMany(name =>
            new[] { "survival", "obs_a", "obs_b" }.Select(key => new Exception(
                name,
                key,
                inputs => inputs.Number("step") < inputs.Numbers("survival").Length,
                "what comes later is not known yet"
            ))
        ),
        .. new[] { "mean", "survival", "obs_a", "obs_b", "p" }.Select(key => new Exception(
            "popfilter.quantile",
            key,
            _ => true,
            "a whole number moves by ones"
        )),
        new(
            "particle.systematic_indices",
            "weights",
            _ => true,
            "places move only where a boundary is passed"
        ),
        new("sbc.bin_count_accept.upper", "simulations", _ => true, "a whole number moves by ones"),
        new("food.dose_volume", "target", NoDose, "nothing is missing, or nothing can be reached"),
        new("food.dose_volume", "present", NoDose, "nothing is missing, or nothing can be reached"),
        new("food.dose_volume", "volume_L", NoDose, "nothing is missing, or nothing can be reached"),
        new("food.dose_volume", "culture", NoDose, "nothing is missing, or nothing can be reached"),
        new("artemia.cyst_density_max", "vessel_L", _ => true, "one figure below 20 L, one from there on"),
        new(
            "waste.container_tan",
            "grazing_per_d",
            inputs => inputs.Number("a0") == 0,
            "without algae nothing is grazed"
        ),
        .. new[] { "single_triangle", "double_triangle", "single_sine", "double_sine" }.SelectMany(method =>
            (
                method.StartsWith("double", StringComparison.Ordinal)
                    ? new[] { "tmin", "tmax", "next_tmin", "lower", "upper" }
                    : ["tmin", "tmax", "lower", "upper"]
            ).Select(key => new Exception(
                $"degree_days.{method}",
                key,
                key == "upper" ? NeverAbove : WholeDayOutside,
                "what lies outside the thresholds does not count"
            ))
        ),
        .. new[] { "tmin", "tmax", "lower" }.Select(key => new Exception(
            "degree_days.average",
            key,
            inputs => inputs.Number("tmin") < inputs.Number("lower"),
            "what lies below the threshold does not count"
        )),
        new(
            "degree_days.logged",
            "temperatures",
            _ => true,
            "what lies outside the thresholds does not count"
        ),
        .. new[] { "a", "t0", "tl", "t" }.Select(key => new Exception(
            "development.briere1_rate",
            key,
            inputs => inputs.Number("t") < inputs.Number("t0"),
            "nothing develops below the threshold"
        )),
        new(
            "development.linear_fit.k",
            "durations",
            _ => true,
            "the middle temperature does not turn the line"
        ),
        new("compare.permutation_p", "a", _ => true, "arrangements change places only where two are close"),
        new("compare.permutation_p", "b", _ => true, "arrangements change places only where two are close"),
        .. new[] { "x", "y" }.SelectMany(key =>
            new[]
            {
                new Exception("trend.sen_slope", key, _ => true, "the middle slope is not of every pair"),
                new Exception("trend.mann_kendall_s", key, _ => true, "only which of two is greater counts"),
                new Exception(
                    "plot.lttb_indices",
                    key,
                    _ => true,
                    "places move only where two triangles are close"
                ),
            }
        ),
        .. new[] { "slack", "threshold" }.Select(key => new Exception(
            "control.cusum.first_signal",
            key,
            _ => true,
            "the place of the signal moves by ones"
        )),
        .. new[] { "x", "threshold" }.Select(key => new Exception(
            "outlier.hampel_indices",
            key,
            _ => true,
            "a spike stays one until it is near the limit"
        )),
        new("multiple.rejections", "p_values", _ => true, "a whole number moves by ones"),
        new("multiple.rejections", "level", _ => true, "a whole number moves by ones"),
        new(
            "multiple.adjusted_p",
            "p_values",
            _ => true,
            "smaller ones do not count, larger ones by their rank"
        ),
    ];

    private static readonly ConcurrentDictionary<CheckRow, string[]> Found = new(
        ReferenceEqualityComparer.Instance
    );

    public static TheoryData<string, int, string> Computed() =>
        [
            .. new[] { "water-checks.csv", "statistics-checks.csv", "food-and-growth-checks.csv" }.SelectMany(
                file =>
                    ReferenceFiles
                        .Rows(file)
                        .Where(row =>
                            row.Check is { } check && QuantityRegistry.Find(check.Quantity) is not null
                        )
                        .Select(row => new TheoryDataRow<string, int, string>(
                            file,
                            row.Line,
                            $"{row.Check!.Quantity} {row.Check.Inputs}"
                        ))
            ),
        ];

    [Theory]
    [MemberData(nameof(Computed))]
    public void Moving_a_number_by_one_per_cent_moves_the_answer(string file, int line, string what)
    {
        var check = ReferenceFiles.Rows(file).Single(row => row.Line == line).Check!;
        var still = Unmoved(check).Where(key => !Exceptions.Any(exception => exception.Covers(check, key)));
        Assert.True(!still.Any(), $"{what}: the answer does not feel {string.Join(", ", still)}");
    }

    [Fact]
    public void Every_listed_exception_is_needed()
    {
        var checks = Computed()
            .Select(row =>
                ReferenceFiles.Rows(row.Data.Item1).Single(read => read.Line == row.Data.Item2).Check!
            )
            .ToArray();
        Assert.Equal(
            [],
            Exceptions
                .Where(exception =>
                    !checks.Any(check =>
                        check.Quantity == exception.Quantity
                        && Unmoved(check).Any(key => exception.Covers(check, key))
                    )
                )
                .Select(exception => $"{exception.Quantity} {exception.Key}")
        );
    }

    // Keys of which some number can be moved without moving the answer; worked out once a row.
    private static string[] Unmoved(CheckRow check) => Found.GetOrAdd(check, LookForUnmoved);

    private static string[] LookForUnmoved(CheckRow check)
    {
        var quantity = QuantityRegistry.Find(check.Quantity)!;
        var before = Answer.Of(quantity, check.Inputs, ReferenceFiles.Surroundings);
        return
        [
            .. check.Inputs.Keys.Where(key =>
                MovedValues(check.Inputs, key)
                    .Any(moved =>
                        Same(
                            before,
                            Answer.Of(quantity, check.Inputs.With(key, moved), ReferenceFiles.Surroundings)
                        )
                    )
            ),
        ];
    }

    private static IEnumerable<string> MovedValues(CheckInputs inputs, string key)
    {
        Assert.True(inputs.TryText(key, out var text));
        if (!CheckValue.TryList(text, out var items))
        {
            return CheckValue.TryNumber(text, out var number) ? [Moved(number)] : [];
        }

        return items
            .Select((item, at) => (item, at))
            .Where(pair => CheckValue.TryNumber(pair.item, out _))
            .Select(pair =>
            {
                CheckValue.TryNumber(pair.item, out var number);
                return $"[{string.Join(' ', items.Select((item, i) => i == pair.at ? Moved(number) : item))}]";
            });
    }

    private static string Moved(double number) => $"{(number == 0 ? 0.01 : 1.01 * number):R}";

    private static bool Same(Answer left, Answer right) =>
        left.IsRefusal == right.IsRefusal
        && left.Numbers.Count == right.Numbers.Count
        && left.Numbers.Zip(right.Numbers)
            .All(pair => Math.Abs(pair.First - pair.Second) <= 1e-12 * (1 + Math.Abs(pair.First)));

    private static bool NoDose(CheckInputs inputs) =>
        inputs.Number("present") >= inputs.Number("target")
        || inputs.Number("culture") <= inputs.Number("target");

    private static bool NeverAbove(CheckInputs inputs) => inputs.Number("tmax") < inputs.Number("upper");

    private static bool WholeDayOutside(CheckInputs inputs) =>
        inputs.Has("upper")
        && (
            inputs.Number("tmax") <= inputs.Number("lower") || inputs.Number("tmin") >= inputs.Number("upper")
        );

    private static bool FarAhead(CheckInputs inputs) =>
        inputs.Number("t") < 200 && inputs.Number("stage") > 6;

    private static bool AtHalf(CheckInputs inputs) => inputs.Number("p").Equals(0.5);

    private static bool Inside(CheckInputs inputs) =>
        inputs.Number("y") >= inputs.Number("lower") && inputs.Number("y") <= inputs.Number("upper");

    private static bool NoneSeen(CheckInputs inputs) => inputs.Number(inputs.Has("x") ? "x" : "count") == 0;

    private static bool AllSeen(CheckInputs inputs) => inputs.Number("x").Equals(inputs.Number("n"));

    private static bool AllAgainstNone(CheckInputs inputs) =>
        inputs.Number("x1").Equals(inputs.Number("n1")) && inputs.Number("x2") == 0;

    private static bool IsFirst(CheckInputs inputs) => inputs.Number("t") <= 1;

    private sealed record Exception(string Quantity, string Key, Func<CheckInputs, bool> When, string Reason)
    {
        public bool Covers(CheckRow check, string key) =>
            check.Quantity == Quantity && key == Key && When(check.Inputs);
    }
}
