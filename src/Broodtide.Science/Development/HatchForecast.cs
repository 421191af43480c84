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

    /// <summary>Reach of each part of the requirement, in its log standard deviations.</summary>
    private const double Reach = 4.5;

    private const int MostCandidatesAtFullStep = 40;

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
    public static HatchPosterior From(EmbryoPrior prior, BroodEvidence evidence, double stepDays = 0.1)
    {
        prior.Checked();
        Finite.Within(stepDays, 0.01, 0.5);
        var facts = WithoutLooksAfterLarvae(evidence.OrderedFacts());
        var spawnings = SpawningDays.From(facts, evidence.AgeUnknown, prior.Looks);
        var start = Math.Floor(spawnings.Min(s => s.Day));
        var days = (int)Math.Ceiling(spawnings.Max(s => s.Day) - start) + HorizonDays;
        var step = spawnings.Length > MostCandidatesAtFullStep ? 2 * stepDays : stepDays;
        var grid = new HatchGrid(start, step, (int)Math.Ceiling(days / step));

        var path = TemperaturePath.Over(evidence.Temperatures, evidence.Assumption, start, days);
        var byHatchDay = HatchDayLikelihood.Over(prior, facts, evidence.MidnightPhase, grid);
        var eyes = EyedLooks(facts, prior.Looks);
        var sums = new HatchSums(grid, spawnings.Length);
        foreach (var theBase in Quadrature.Normal(prior.BaseCelsius, prior.BaseSdCelsius, 3))
        {
            foreach (var error in Quadrature.Normal(0, path.IsCertain ? 0 : 1, 5))
            {
                var development = Development.Along(prior, theBase.Value, path, error.Value, grid);
                for (var s = 0; s < spawnings.Length; s++)
                {
                    var weight = theBase.Weight * error.Weight * spawnings[s].Weight;
                    Add(prior, spawnings[s], weight, development, byHatchDay, eyes, sums, s);
                }
            }
        }

        return HatchPosterior.From(prior, evidence, facts, path, spawnings, sums);
    }

    /// <summary>Once larvae were seen, later looks at the remaining eggs say nothing of the first hatch.</summary>
    private static BroodFact[] WithoutLooksAfterLarvae(BroodFact[] facts)
    {
        var larvae = facts.OfType<BroodFact.FirstLarvae>().MinBy(fact => fact.UntilDay);
        return larvae is null
            ? facts
            : [.. facts.Where(fact => fact is BroodFact.FirstLarvae || fact.Day <= larvae.UntilDay)];
    }

    private static (Onset Doubting, Onset Exact, double ByChance) EyedLooks(BroodFact[] facts, LookTrust trust)
    {
        var looks = facts.OfType<BroodFact.EggsLookedAt>().Where(look => look.Eyed.HasValue).ToArray();
        return (
            Onset.From([.. looks.Select(look => Onset.Look.Said(look.Day, look.Eyed == true, trust.Misread))]),
            Onset.From([.. looks.Select(look => Onset.Look.Said(look.Day, look.Eyed == true, 0))]),
            Math.Pow(0.5, looks.Length)
        );
    }

    private static void Add(
        EmbryoPrior prior,
        SpawningDay spawning,
        double weight,
        Development development,
        HatchDayLikelihood byHatchDay,
        (Onset Doubting, Onset Exact, double ByChance) eyes,
        HatchSums sums,
        int spawningIndex
    )
    {
        var grid = sums.Grid;
        var atSpawning = development.Upto(spawning.Day);
        var parts = prior.Requirement;
        var totalWeight = parts.Sum(part => part.Weight);
        var shortest = double.PositiveInfinity;
        var longest = 0.0;
        Span<double> logMedian = parts.Count <= 128 ? stackalloc double[parts.Count] : new double[parts.Count];
        for (var p = 0; p < parts.Count; p++)
        {
            var spread = parts[p].DaysAtReference;
            logMedian[p] = Math.Log(spread.Median);
            shortest = Math.Min(shortest, spread.Median * Math.Exp(-Reach * spread.LogSd));
            longest = Math.Max(longest, spread.Median * Math.Exp(Reach * spread.LogSd));
        }

        var doubting = EyedTerms.From(eyes.Doubting, development, atSpawning, prior.EyedRatio);
        var exact = EyedTerms.From(eyes.Exact, development, atSpawning, prior.EyedRatio);
        var worthless = prior.Looks.Worthless;
        var first = Math.Max(0, (int)((spawning.Day - grid.Start) / grid.Step));
        for (var i = first; i < grid.Cells; i++)
        {
            var units = development.Upto(i) - atSpawning;
            if (units < shortest)
            {
                continue;
            }

            if (units > longest)
            {
                break;
            }

            var log = Math.Log(units);
            var density = 0.0;
            for (var p = 0; p < parts.Count; p++)
            {
                var sd = parts[p].DaysAtReference.LogSd;
                var z = (log - logMedian[p]) / sd;
                density += parts[p].Weight * Math.Exp(-0.5 * z * z) / sd;
            }

            // d(log U)/d(day) turns the density of the log requirement into one of the hatch day.
            var mass =
                weight
                * density
                / (totalWeight * Math.Sqrt(2 * Math.PI))
                * development.Rate(i)
                / units
                * grid.Step;
            var full =
                byHatchDay.Full[i]
                * ((worthless * eyes.ByChance) + ((1 - worthless) * doubting.Likelihood(log)));
            var strict = spawning.Plausible
                ? byHatchDay.Strict[i] * (1 - worthless) * exact.Likelihood(log)
                : 0;
            sums.Add(i, spawningIndex, mass, mass * full, mass * strict);
        }
    }
}
