using Broodtide.Science.Statistics;
using Broodtide.Science.Survival;

namespace Broodtide.Checks.Quantities;

/// <summary>Survival of individuals and between counts.</summary>
internal static class SurvivalQuantities
{
    private const string CurveKeys = "data, time, (event), (filter_column), (filter_value), t";
    private const string GroupKeys = "data, time, (event), group_column";
    private const string FitKeys =
        "data, (time), (event), distribution, (covariate), (baseline), (left), (right)";
    private const string RatioKeys = "events1, exposure1, events2, exposure2, level";
    private const string BetweenKeys = "count_earlier, fraction_earlier, count_later, fraction_later, level";
    private const string HazardKeys = "n1, day1, n2, day2";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Data("surv.kaplan_meier", CurveKeys, (inputs, table) => Curve(inputs, table).At(inputs.Number("t"))),
        Data(
            "surv.kaplan_meier_se",
            CurveKeys,
            (inputs, table) => Curve(inputs, table).StandardErrorAt(inputs.Number("t"))
        ),
        Data("surv.logrank_chi2", GroupKeys, (inputs, table) => Compared(inputs, table).Result.ChiSquare),
        Data(
            "surv.logrank_expected",
            $"{GroupKeys}, group",
            (inputs, table) =>
            {
                var (names, result) = Compared(inputs, table);
                return result.Expected[names.IndexOf(inputs.Word("group"))];
            }
        ),
        Data("surv.parametric.coef", $"{FitKeys}, coef", Coefficient),
        Data("surv.parametric.scale", FitKeys, (inputs, table) => Fit(inputs, table).Scale),
        Data("surv.parametric.loglik", FitKeys, (inputs, table) => Fit(inputs, table).LogLikelihood),
        Data(
            "surv.weibull_fit.shape",
            "data, time, (event)",
            (inputs, table) => Weibull(inputs, table).At().Shape
        ),
        Data(
            "surv.weibull_fit.scale",
            "data, time, (event)",
            (inputs, table) => Weibull(inputs, table).At().Scale
        ),
        Data("surv.turnbull_mass", "data, left, right, (filter_column), (filter_value), from, to", Mass),
        Data(
            "surv.interval_logrank_z",
            "data, left, right, group_column, scores",
            (inputs, table) => Math.Abs(IntervalZ(inputs, table))
        ),
        Quantity.Of("surv.rate_ratio_exact_ci.lower", RatioKeys, inputs => Ratio(inputs).Lower),
        Quantity.Of("surv.rate_ratio_exact_ci.upper", RatioKeys, inputs => Ratio(inputs).Upper),
        Quantity.Of("surv.between_count_survival_ci.lower", BetweenKeys, inputs => Between(inputs).Lower),
        Quantity.Of("surv.between_count_survival_ci.upper", BetweenKeys, inputs => Between(inputs).Upper),
        Quantity.Of(
            "surv.daily_hazard",
            HazardKeys,
            inputs => BetweenCounts.HazardPerDay(Count(inputs, "n1", "day1"), Count(inputs, "n2", "day2"))
        ),
        Quantity.Of(
            "surv.daily_hazard_se",
            HazardKeys,
            inputs =>
                BetweenCounts.HazardStandardErrorPerDay(
                    Count(inputs, "n1", "day1"),
                    Count(inputs, "n2", "day2")
                )
        ),
        Quantity.Of(
            "surv.cumulative",
            "counts, days",
            inputs =>
                BetweenCounts.Cumulative([
                    .. inputs
                        .Numbers("counts")
                        .Zip(inputs.Numbers("days"))
                        .Select(pair => new CompleteCount(CheckWhole.Of(pair.First, "counts"), pair.Second)),
                ])
        ),
        Quantity.Of(
            "surv.abbott",
            "treated, control",
            inputs => BetweenCounts.Abbott(inputs.Fraction("treated"), inputs.Fraction("control"))
        ),
    ];

    private static Quantity Data(string name, string keys, Func<CheckInputs, DataTable, double> compute) =>
        Quantity.WithData(
            name,
            keys,
            (inputs, surroundings) => [compute(inputs, SurvivalData.Rows(inputs, surroundings))]
        );

    private static SurvivalCurve Curve(CheckInputs inputs, DataTable table) =>
        KaplanMeier.Of(SurvivalData.Lifetimes(inputs, table));

    private static (List<string> Names, LogRankResult Result) Compared(CheckInputs inputs, DataTable table)
    {
        var column = inputs.Word("group_column");
        var names = table.Texts(column).Distinct(StringComparer.Ordinal).ToList();
        return (
            names,
            LogRank.Compare([
                .. names.Select(name => SurvivalData.Lifetimes(inputs, table.Where(column, name))),
            ])
        );
    }

    private static double Coefficient(CheckInputs inputs, DataTable table)
    {
        var fit = Fit(inputs, table);
        var wanted = inputs.Word("coef");
        return wanted == "intercept" ? fit.Intercept
            : wanted == SurvivalData.Other(inputs, table) ? fit.Coefficient!.Value
            : throw new CheckFormatException($"there is no coefficient {wanted}");
    }

    private static ParametricFit Fit(CheckInputs inputs, DataTable table) =>
        ParametricLives.Fit(
            inputs.Has("left")
                ? SurvivalData.Windows(inputs, table)
                : [.. SurvivalData.Lifetimes(inputs, table).Select(DeathWindow.Of)],
            SurvivalData.Covariate(inputs, table),
            inputs.OneOf(
                "distribution",
                ("weibull", LifeShape.Weibull),
                ("exponential", LifeShape.Exponential)
            )
        );

    private static ParametricFit Weibull(CheckInputs inputs, DataTable table) =>
        ParametricLives.Fit(
            [.. SurvivalData.Lifetimes(inputs, table).Select(DeathWindow.Of)],
            [],
            LifeShape.Weibull
        );

    private static double Mass(CheckInputs inputs, DataTable table)
    {
        var shares = Turnbull.Of(SurvivalData.Windows(inputs, table));
        var from = inputs.Number("from");
        var to = inputs.Number("to");
        return shares
                .SingleOrDefault(share =>
                    share.After.Equals(from) && (share.UpTo ?? double.PositiveInfinity).Equals(to)
                )
                ?.Share
            ?? throw new ArgumentException($"no deaths are placed on ({from}, {to}]", nameof(inputs));
    }

    private static double IntervalZ(CheckInputs inputs, DataTable table)
    {
        var column = inputs.Word("group_column");
        var names = table.Texts(column).Distinct(StringComparer.Ordinal).ToArray();
        return IntervalLogRank
            .Compare(
                SurvivalData.Windows(inputs, table.Where(column, names[0])),
                SurvivalData.Windows(inputs, table.Where(column, names[^1])),
                inputs.OneOf("scores", ("sun", WindowScore.Sun), ("finkelstein", WindowScore.Finkelstein))
            )
            .Z;
    }

    private static CentralInterval Ratio(CheckInputs inputs) =>
        RateRatio.Exact(
            CheckWhole.Of(inputs.Number("events1"), "events1"),
            inputs.Number("exposure1"),
            CheckWhole.Of(inputs.Number("events2"), "events2"),
            inputs.Number("exposure2"),
            inputs.Fraction("level")
        );

    private static CentralInterval Between(CheckInputs inputs) =>
        BetweenCounts.Survival(
            CheckWhole.Of(inputs.Number("count_earlier"), "count_earlier"),
            inputs.Number("fraction_earlier"),
            CheckWhole.Of(inputs.Number("count_later"), "count_later"),
            inputs.Number("fraction_later"),
            inputs.Fraction("level")
        );

    private static CompleteCount Count(CheckInputs inputs, string alive, string day) =>
        new(CheckWhole.Of(inputs.Number(alive), alive), inputs.Number(day));
}
