using Broodtide.Science.Counting;
using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Counts and what they say about a number.</summary>
internal static class CountQuantities
{
    private const string PoissonKeys = "count, level";
    private const string AliquotKeys = "counts, aliquot_mL, total_mL";
    private const string FractionKeys = "count, fraction, level";
    private const string PosteriorKeys = "count, fraction, prior";
    private const string TableKeys = "data, column, frequency";
    private const string ClumpedKeys = "sum, aliquots, k, level";
    private const string LookerKeys = "first, second, both";
    private const string PhotoKeys = "count, found, known, prior, n_max";
    private const string CombinedKeys = "counts, fractions, prior";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of("count.poisson_exact_ci.lower", PoissonKeys, inputs => Garwood(inputs).Lower),
        Quantity.Of("count.poisson_exact_ci.upper", PoissonKeys, inputs => Garwood(inputs).Upper),
        Quantity.Of(
            "count.aliquot_total",
            AliquotKeys,
            inputs => AliquotScaling.Total(Aliquots(inputs), Whole(inputs))
        ),
        Quantity.Of(
            "count.aliquot_total_poisson_ci.lower",
            $"{AliquotKeys}, level",
            inputs => WellMixed(inputs).Lower
        ),
        Quantity.Of(
            "count.aliquot_total_poisson_ci.upper",
            $"{AliquotKeys}, level",
            inputs => WellMixed(inputs).Upper
        ),
        Quantity.Of(
            "count.binomial_n_exact_ci.lower",
            FractionKeys,
            inputs => Fraction(inputs).Limits(inputs.Fraction("level")).Lower
        ),
        Quantity.Of(
            "count.binomial_n_exact_ci.upper",
            FractionKeys,
            inputs => Fraction(inputs).Limits(inputs.Fraction("level")).Upper
        ),
        Quantity.Of("count.posterior_n.mean", PosteriorKeys, inputs => Posterior(inputs).Mean),
        Quantity.Of("count.posterior_n.sd", PosteriorKeys, inputs => Posterior(inputs).StandardDeviation),
        Quantity.Of(
            "count.posterior_n.quantile",
            $"{PosteriorKeys}, p",
            inputs => Posterior(inputs).Quantile(inputs.Fraction("p"))
        ),
        Quantity.WithData(
            "count.index_of_dispersion",
            "(counts), (data), (column), (frequency)",
            (inputs, around) => [Index(inputs, around).Index]
        ),
        Quantity.Of(
            "count.dispersion_chi2",
            "counts",
            inputs => Dispersion.Of(inputs.Wholes("counts")).ChiSquare
        ),
        Quantity.Of("count.dispersion_p", "counts, tail", Tail),
        Quantity.Of(
            "count.negbin_k_moment",
            "counts",
            inputs => Dispersion.Of(inputs.Wholes("counts")).MomentClumping ?? double.NaN
        ),
        Quantity.WithData(
            "count.negbin_fit.k",
            TableKeys,
            (inputs, around) => [Fitted(inputs, around).Clumping ?? double.PositiveInfinity]
        ),
        Quantity.WithData(
            "count.negbin_fit.mean",
            TableKeys,
            (inputs, around) => [Fitted(inputs, around).Mean]
        ),
        Quantity.WithData(
            "count.negbin_fit.loglik",
            TableKeys,
            (inputs, around) => [Fitted(inputs, around).LogLikelihood]
        ),
        Quantity.Of("count.negbin_mean_exact_ci.lower", ClumpedKeys, inputs => Clumped(inputs).Lower),
        Quantity.Of("count.negbin_mean_exact_ci.upper", ClumpedKeys, inputs => Clumped(inputs).Upper),
        Quantity.Of(
            "count.aliquots_for_precision",
            "mean, cv, (k)",
            inputs =>
                AliquotPlanning
                    .Need(
                        inputs.Number("mean"),
                        inputs.Number("cv"),
                        inputs.Has("k") ? 1 / Finite.Positive(inputs.Number("k")) : 0
                    )
                    .Exact
        ),
        Quantity.Of("count.chapman.n", LookerKeys, inputs => Lookers(inputs).Chapman),
        Quantity.Of("count.chapman.se", LookerKeys, inputs => Lookers(inputs).ChapmanStandardError),
        Quantity.Of("count.petersen.n", LookerKeys, inputs => Lookers(inputs).Petersen),
        Quantity.Of("count.photo_posterior.mean", PhotoKeys, inputs => Photo(inputs).Mean),
        Quantity.Of("count.photo_posterior.sd", PhotoKeys, inputs => Photo(inputs).StandardDeviation),
        Quantity.Of(
            "count.photo_posterior.quantile",
            $"{PhotoKeys}, p",
            inputs => Photo(inputs).Quantile(inputs.Fraction("p"))
        ),
        Quantity.Of("count.combined_posterior.mean", CombinedKeys, inputs => Combined(inputs).Mean),
        Quantity.Of(
            "count.combined_posterior.sd",
            CombinedKeys,
            inputs => Combined(inputs).StandardDeviation
        ),
        Quantity.Of(
            "count.combined_posterior.quantile",
            $"{CombinedKeys}, p",
            inputs => Combined(inputs).Quantile(inputs.Fraction("p"))
        ),
    ];

    private static Limits Garwood(CheckInputs inputs) =>
        PoissonCount.Garwood(inputs.Whole("count"), inputs.Fraction("level"));

    private static AliquotSeen[] Aliquots(CheckInputs inputs)
    {
        var volume = Volume.FromMillilitres(inputs.Number("aliquot_mL"));
        return [.. inputs.Wholes("counts").Select(seen => new AliquotSeen(seen, volume))];
    }

    private static Volume Whole(CheckInputs inputs) => Volume.FromMillilitres(inputs.Number("total_mL"));

    private static Limits WellMixed(CheckInputs inputs) =>
        AliquotScaling.WellMixedLimits(Aliquots(inputs), Whole(inputs), inputs.Fraction("level"));

    private static KnownFraction Fraction(CheckInputs inputs) =>
        new(inputs.Whole("count"), inputs.Fraction("fraction"));

    private static CountPrior Prior(CheckInputs inputs) =>
        inputs.OneOf("prior", ("reciprocal", CountPrior.Reciprocal), ("flat", CountPrior.Flat));

    private static KnownFractionPosterior Posterior(CheckInputs inputs) =>
        Fraction(inputs).Posterior(Prior(inputs));

    private static DispersionIndex Index(CheckInputs inputs, CheckSurroundings around) =>
        inputs.Has("counts") ? Dispersion.Of(inputs.Wholes("counts")) : Dispersion.Of(Table(inputs, around));

    private static double Tail(CheckInputs inputs)
    {
        var index = Dispersion.Of(inputs.Wholes("counts"));
        return inputs.OneOf("tail", ("upper", index.ClumpedChance), ("lower", index.RegularChance)).Value;
    }

    private static ClumpedFit Fitted(CheckInputs inputs, CheckSurroundings around) =>
        ClumpedCount.Fit(Table(inputs, around));

    // A table of how often each count occurred, or a series in which each stands once.
    private static CountFrequency[] Table(CheckInputs inputs, CheckSurroundings around)
    {
        var table = around.Table(inputs.Word("data"));
        var counts = table.Numbers(inputs.Word("column"));
        var times = inputs.Has("frequency")
            ? table.Numbers(inputs.Word("frequency"))
            : [.. Enumerable.Repeat(1.0, counts.Length)];
        return [.. counts.Zip(times, (count, often) => new CountFrequency((int)count, (int)often))];
    }

    private static Limits Clumped(CheckInputs inputs) =>
        ClumpedCount.MeanLimits(
            inputs.Whole("sum"),
            new(inputs.Whole("aliquots"), inputs.Number("k")),
            inputs.Fraction("level")
        );

    private static TwoLookers Lookers(CheckInputs inputs) =>
        new(inputs.Whole("first"), inputs.Whole("second"), inputs.Whole("both"));

    private static NumberPosterior Photo(CheckInputs inputs) =>
        PhotoCount.Posterior(
            new(
                inputs.Whole("count"),
                BetaBelief.Flat.After(new Tally(inputs.Whole("found"), inputs.Whole("known")))
            ),
            Prior(inputs),
            inputs.Whole("n_max")
        );

    private static NumberPosterior Combined(CheckInputs inputs) =>
        CombinedCounts.Posterior(
            [
                .. inputs
                    .Wholes("counts")
                    .Zip(
                        inputs.Numbers("fractions"),
                        (seen, fraction) => new KnownFraction(seen, Probability.FromFraction(fraction))
                    ),
            ],
            Prior(inputs)
        );
}
