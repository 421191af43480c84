using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>
/// When a brood will hatch: thermal-time development from an uncertain day of spawning, with every fact seen of the
/// brood taken in by Bayes' rule on a fixed grid. Nothing is random, and the order of the evidence does not matter.
/// </summary>
/// <remarks>
/// For each candidate day of spawning, base temperature and persistent temperature error, development U is summed
/// along the temperatures; the requirement gives the density of the hatch day in closed form, the eyed looks weigh
/// it by U(look) / U(hatch) against the eyed ratio, and the other facts weigh the hatch day itself. Eggs are never
/// taken to be eyed at the first look that says so, only between looks.
/// </remarks>
public static class HatchForecast
{
    /// <summary>Days forecast beyond the first sight of eggs: more than twice the longest practice report.</summary>
    private const int HorizonDays = 110;

    private const int MostCandidatesAtFullStep = 40;

    // About a millisecond of work on a desktop.
    private const int CandidatesInAPiece = 4;

    /// <summary>Forecasts the day of the first hatch.</summary>
    /// <param name="prior">What is believed of the species.</param>
    /// <param name="evidence">What is known of the brood.</param>
    /// <param name="stepDays">
    /// Cell of the grid, days, 0.01 to 0.5. Twice this where the age of the eggs is unknown.
    /// </param>
    /// <returns>The distribution of the hatch day, with how it was reached.</returns>
    /// <exception cref="InvalidOperationException">
    /// No fact shows eggs or larvae, or the prior has no requirement.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static HatchPosterior From(EmbryoPrior prior, BroodEvidence evidence, double stepDays = 0.1) =>
        InPieces(prior, evidence, stepDays).Last()!;

    /// <summary>
    /// The same forecast in small pieces, for whoever must not be held up: each turn works on one piece and gives
    /// nothing, the last one gives the answer. The answer is the same to the last digit.
    /// </summary>
    /// <param name="prior">What is believed of the species.</param>
    /// <param name="evidence">What is known of the brood.</param>
    /// <param name="stepDays">
    /// Cell of the grid, days, 0.01 to 0.5. Twice this where the age of the eggs is unknown.
    /// </param>
    /// <exception cref="InvalidOperationException">
    /// No fact shows eggs or larvae, or the prior has no requirement.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static IEnumerable<HatchPosterior?> InPieces(
        EmbryoPrior prior,
        BroodEvidence evidence,
        double stepDays = 0.1
    )
    {
        prior.Checked();
        Finite.Within(stepDays, 0.01, 0.5);
        var facts = WithoutLooksAfterLarvae(evidence.OrderedFacts());
        return Pieces(prior, evidence, facts, stepDays);
    }

    private static IEnumerable<HatchPosterior?> Pieces(
        EmbryoPrior prior,
        BroodEvidence evidence,
        BroodFact[] facts,
        double stepDays
    )
    {
        var spawnings = SpawningDays.From(facts, evidence.AgeUnknown, prior.Looks);
        var start = Math.Floor(spawnings.Min(s => s.Day));
        var days = (int)Math.Ceiling(spawnings.Max(s => s.Day) - start) + HorizonDays;
        var step = spawnings.Length > MostCandidatesAtFullStep ? 2 * stepDays : stepDays;
        var grid = new HatchGrid(start, step, (int)Math.Ceiling(days / step));

        var path = TemperaturePath.Over(evidence.Temperatures, evidence.Assumption, start, days);
        yield return null;
        var byHatchDay = HatchDayLikelihood.Over(prior, facts, evidence.MidnightPhase, grid);
        yield return null;
        var eyes = EyedLooks(facts, prior.Looks);
        var density = HatchingDensity.From(prior.Requirement);
        var sums = new HatchSums(grid, spawnings.Length);
        foreach (var theBase in Quadrature.Normal(prior.BaseCelsius, prior.BaseSdCelsius, 3))
        {
            foreach (var error in Quadrature.Normal(0, path.IsCertain ? 0 : 1, 5))
            {
                var development = Development.Along(prior, theBase.Value, path, error.Value, grid);
                for (var s = 0; s < spawnings.Length; s++)
                {
                    if (s % CandidatesInAPiece == 0)
                    {
                        yield return null;
                    }

                    var atSpawning = development.Upto(spawnings[s].Day);
                    Add(
                        density,
                        prior.Looks.Worthless,
                        spawnings[s],
                        theBase.Weight * error.Weight * spawnings[s].Weight,
                        atSpawning,
                        development,
                        byHatchDay,
                        (
                            EyedTerms.From(eyes.Doubting, development, atSpawning, prior.EyedRatio),
                            EyedTerms.From(eyes.Exact, development, atSpawning, prior.EyedRatio),
                            eyes.ByChance
                        ),
                        sums,
                        s
                    );
                }
            }
        }

        yield return HatchPosterior.From(prior, evidence, facts, path, spawnings, sums);
    }

    /// <summary>Once larvae were seen, later looks at the remaining eggs say nothing of the first hatch.</summary>
    private static BroodFact[] WithoutLooksAfterLarvae(BroodFact[] facts)
    {
        var larvae = facts.OfType<BroodFact.FirstLarvae>().MinBy(fact => fact.UntilDay);
        return larvae is null
            ? facts
            : [.. facts.Where(fact => fact is BroodFact.FirstLarvae || fact.Day <= larvae.UntilDay)];
    }

    private static (Onset Doubting, Onset Exact, double ByChance) EyedLooks(
        BroodFact[] facts,
        LookTrust trust
    )
    {
        var looks = facts.OfType<BroodFact.EggsLookedAt>().Where(look => look.Eyed.HasValue).ToArray();
        return (
            Onset.From([
                .. looks.Select(look => Onset.Look.Said(look.Day, look.Eyed == true, trust.Misread)),
            ]),
            Onset.From([.. looks.Select(look => Onset.Look.Said(look.Day, look.Eyed == true, 0))]),
            Math.Pow(0.5, looks.Length)
        );
    }

    private static void Add(
        HatchingDensity density,
        double worthless,
        SpawningDay spawning,
        double weight,
        double atSpawning,
        Development development,
        HatchDayLikelihood byHatchDay,
        (EyedTerms Doubting, EyedTerms Exact, double ByChance) eyes,
        HatchSums sums,
        int spawningIndex
    )
    {
        var grid = sums.Grid;
        var chance = worthless * eyes.ByChance;
        var trusted = 1 - worthless;
        var strictWeight = spawning.Plausible ? trusted : 0;
        for (var i = Math.Max(0, (int)((spawning.Day - grid.Start) / grid.Step)); i < grid.Cells; i++)
        {
            var units = development.Upto(i) - atSpawning;
            if (units < density.Shortest)
            {
                continue;
            }

            if (units > density.Longest)
            {
                break;
            }

            // d(log U)/d(day) turns the density of the log requirement into one of the hatch day.
            var log = Math.Log(units);
            var mass = weight * density.OfLog(log) * development.Rate(i) / units * grid.Step;
            var full = byHatchDay.Full[i] * (chance + (trusted * eyes.Doubting.Likelihood(log)));
            var strict = byHatchDay.Strict[i];
            strict = strict > 0 && strictWeight > 0 ? strict * strictWeight * eyes.Exact.Likelihood(log) : 0;
            sums.Add(i, spawningIndex, mass, mass * full, mass * strict);
        }
    }
}
