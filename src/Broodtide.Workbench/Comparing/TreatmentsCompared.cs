using Broodtide.Science.Comparing;
using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Workbench.Comparing;

/// <summary>One treatment of a comparison.</summary>
/// <param name="Treatment">Its name.</param>
/// <param name="Vessels">Its vessels.</param>
/// <param name="Share">Its share with limits.</param>
public sealed record ComparedArm(string Treatment, IReadOnlyList<TableVessel> Vessels, ArmShare Share);

/// <summary>One treatment held against the first.</summary>
/// <param name="Treatment">Which.</param>
/// <param name="With">Held against which.</param>
/// <param name="Arms">What comes of it.</param>
/// <param name="AdjustedP">
/// The permutation p raised for the number of comparisons (Holm 1979); none where there is no test, the same where there is one.
/// </param>
public sealed record ComparedPair(string Treatment, string With, TwoArms Arms, Probability? AdjustedP);

/// <summary>
/// One line fitted over all factors of a table, by independent individuals: how much more vessels differ than by chance, and
/// what each factor brings.
/// </summary>
/// <param name="Deviance">Residual deviance.</param>
/// <param name="DegreesOfFreedom">Rows less coefficients.</param>
/// <param name="Dispersion">Pearson chi-square over degrees of freedom.</param>
/// <param name="F">F of leaving each factor out, with the residual deviance for its scale.</param>
/// <param name="BetaBinomial">The same line with a vessel effect; none where it did not come to rest.</param>
public sealed record FactorsFitted(
    double Deviance,
    int DegreesOfFreedom,
    double Dispersion,
    IReadOnlyList<(string Factor, double F)> F,
    BetaBinomialFit? BetaBinomial
);

/// <summary>Treatments compared, vessels as the unit.</summary>
/// <param name="Arms">The treatments, in the order of the table.</param>
/// <param name="Pairs">Each but the first held against the first.</param>
/// <param name="Tarone">Tarone's Z of clumping within each treatment, where it can be told.</param>
/// <param name="Factors">One line over several factors; none with one factor.</param>
/// <param name="Remarks">What a reader must know: no test is possible, and the like.</param>
public sealed record TreatmentsCompared(
    IReadOnlyList<ComparedArm> Arms,
    IReadOnlyList<ComparedPair> Pairs,
    IReadOnlyList<(string Treatment, double Z)> Tarone,
    FactorsFitted? Factors,
    IReadOnlyList<Remark> Remarks
)
{
    // From so many vessels of each a permutation of two sides can reach 0.05.
    private const int VesselsForATest = 4;

    /// <summary>Compares the treatments of some vessels.</summary>
    /// <param name="vessels">The vessels, one at least.</param>
    /// <param name="factors">Names of the factors, as many as each vessel has levels.</param>
    /// <param name="baselines">The level each factor is held against; the first of the table where none is said.</param>
    /// <param name="joined">Whether factors are fitted with what they do together.</param>
    /// <param name="shareOf">Share and limits of one vessel that was not counted but estimated; none where it was counted.</param>
    /// <exception cref="ArgumentException">There is no vessel.</exception>
    public static TreatmentsCompared Of(
        IReadOnlyList<TableVessel> vessels,
        IReadOnlyList<string> factors,
        IReadOnlyList<string>? baselines = null,
        bool joined = false,
        Func<TableVessel, Interval?>? shareOf = null
    )
    {
        if (vessels.Count == 0)
        {
            throw new ArgumentException("A comparison needs vessels.", nameof(vessels));
        }

        var arms = vessels
            .GroupBy(vessel => vessel.Treatment, StringComparer.Ordinal)
            .Select(arm => new ComparedArm(arm.Key, [.. arm], ShareOf([.. arm], shareOf)))
            .ToList();
        var first = arms[0];
        var pairs = factors.Count == 1 ? Held(first, arms) : [];
        return new(
            arms,
            pairs,
            [.. Tarones(arms)],
            factors.Count > 1 ? Fitted(vessels, factors, baselines ?? [], joined) : null,
            [.. RemarksOf(arms, factors.Count)]
        );
    }

    // Between vessels the error of each is part of what parts them; one vessel alone has nothing but its own.
    private static ArmShare ShareOf(IReadOnlyList<TableVessel> vessels, Func<TableVessel, Interval?>? shareOf)
    {
        var share = ArmShare.Of([.. vessels.Select(Counted)]);
        return vessels.Count == 1 && shareOf?.Invoke(vessels[0]) is { } own
            ? share with
            {
                Share = own,
            }
            : share;
    }

    private static Tally Counted(TableVessel vessel) => new(vessel.Alive, vessel.Started);

    private static IReadOnlyList<ComparedPair> Held(ComparedArm first, List<ComparedArm> arms)
    {
        var compared = arms.Skip(1)
            .Select(arm =>
                (
                    arm.Treatment,
                    Arms: TwoArms.Of(
                        [.. arm.Vessels.Select(Counted)],
                        [.. first.Vessels.Select(Counted)],
                        arm.Share.Share,
                        first.Share.Share,
                        [.. arm.Vessels.Concat(first.Vessels).Select(vessel => vessel.Block)]
                    )
                )
            )
            .ToList();
        var tested = compared.Where(pair => pair.Arms.Permutation is not null).ToList();
        var adjusted =
            tested.Count == 0
                ? []
                : ManyComparisons.Adjusted(
                    [.. tested.Select(pair => pair.Arms.Permutation!.P)],
                    ManyComparisonsRule.Holm
                );
        return
        [
            .. compared.Select(pair => new ComparedPair(
                pair.Treatment,
                first.Treatment,
                pair.Arms,
                tested.FindIndex(other => other.Treatment == pair.Treatment) is >= 0 and var place
                    ? adjusted[place]
                    : null
            )),
        ];
    }

    private static IEnumerable<(string Treatment, double Z)> Tarones(List<ComparedArm> arms)
    {
        foreach (var arm in arms.Where(arm => arm.Share.Basis is ArmBasis.BetweenVessels))
        {
            Tally[] tallies = [.. arm.Vessels.Select(Counted)];
            if (tallies.Any(tally => tally.Trials > 1))
            {
                yield return (arm.Treatment, Overdispersion.TaroneZ(tallies));
            }
        }
    }

    private static FactorsFitted? Fitted(
        IReadOnlyList<TableVessel> vessels,
        IReadOnlyList<string> names,
        IReadOnlyList<string> baselines,
        bool joined
    )
    {
        Tally[] tallies = [.. vessels.Select(Counted)];
        var factors = names
            .Select(
                (name, place) =>
                {
                    string[] levels = [.. vessels.Select(vessel => vessel.Levels[place])];
                    return new Factor(
                        name,
                        levels,
                        place < baselines.Count && levels.Contains(baselines[place])
                            ? baselines[place]
                            : levels[0]
                    );
                }
            )
            .ToList();
        string[] terms = joined ? [.. names, string.Join(':', names)] : [.. names];
        try
        {
            var design = RegressionDesign.OfFactors(factors, terms);
            var fit = BinomialRegression.Fit(tallies, design);
            if (fit.DegreesOfFreedom < 1)
            {
                return null;
            }

            var clumped = BetaBinomialRegression.Fit(tallies, design);
            return new(
                fit.Deviance,
                fit.DegreesOfFreedom,
                fit.Dispersion,
                joined
                    ? [(terms[^1], BinomialRegression.QuasiF(tallies, design, terms[^1]))]
                    : [.. names.Select(name => (name, BinomialRegression.QuasiF(tallies, design, name)))],
                clumped.Converged ? clumped : null
            );
        }
        catch (ArgumentException)
        {
            // The columns say the same twice, as where each vessel has a level of its own.
            return null;
        }
    }

    private static IEnumerable<Remark> RemarksOf(List<ComparedArm> arms, int factors)
    {
        if (arms.Count < 2)
        {
            yield return new Remark("compare-one-treatment");
        }
        else if (factors == 1 && arms.TrueForAll(arm => arm.Vessels.Count == 1))
        {
            yield return new Remark("compare-no-test");
        }
        else if (factors == 1 && arms.Exists(arm => arm.Vessels.Count < VesselsForATest))
        {
            yield return new Remark("compare-few-vessels", new Argument("vessels", VesselsForATest));
        }

        foreach (var arm in arms.Where(arm => arm.Share.Basis is ArmBasis.AllAlike))
        {
            yield return new Remark("compare-all-alike", new Argument("treatment", arm.Treatment));
        }
    }
}
