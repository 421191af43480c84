using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Keeping;
using Broodtide.Science.Development;
using Broodtide.Science.Pooling;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Pooling;

/// <summary>What one run says of one number, on the scale it is pooled on.</summary>
/// <param name="Number">The number.</param>
/// <param name="Source">The run.</param>
/// <param name="Effect">What it says by itself.</param>
/// <param name="Doubt">What speaks against counting it in.</param>
internal sealed record RunMessage(
    LearnableNumber Number,
    PooledSource Source,
    RunEffect Effect,
    LeftOut Doubt
);

/// <summary>
/// Asks the runs of one house what they say of a species' numbers, each by itself: told with the profile as published,
/// so that no choice made of earlier runs is heard twice.
/// </summary>
internal sealed class RunMessages(
    Outlook outlook,
    SpeciesProfile published,
    string? from,
    IReadOnlySet<BroodId>? heard
)
{
    // A belief so wide that the requirement itself says little of the days: that of odd broods.
    private const double OpenLogSd = 0.35;

    private readonly House _house = outlook.House;

    /// <summary>The messages, in pieces: none at each pause.</summary>
    public IEnumerable<RunMessage?> InPieces()
    {
        foreach (var brood in _house.Broods.Where(IsOfSpecies))
        {
            RunMessage? said = null;
            foreach (var piece in OfEggs(brood))
            {
                said = piece;
                yield return null;
            }

            if (said is not null)
            {
                yield return said;
            }
        }

        var populations = new LarvalPopulations(_house, _ => published, () => outlook.WaterThen, outlook.Now);
        foreach (
            var population in populations.All.Where(population =>
                population.Broods.Any() && population.Broods.All(id => IsOfSpecies(_house.Brood(id)))
            )
        )
        {
            PopulationEstimate? told = null;
            foreach (var piece in population.EstimateInPieces())
            {
                told = piece;
                yield return null;
            }

            foreach (var message in OfLarvae(population, told!))
            {
                yield return message;
            }
        }
    }

    private bool IsOfSpecies(Brood brood) =>
        heard?.Contains(brood.Id) is not false && outlook.Profiles.Of(brood.Id).Code == published.Code;

    private IEnumerable<RunMessage> OfLarvae(LarvalPopulation population, PopulationEstimate told)
    {
        var broods = population.Broods.ToList();
        var doubt =
            broods.Count > 1 ? LeftOut.Mixed
            : _house.RunOf(broods[0])?.Ended is null ? LeftOut.UnderWay
            : told.IsRough ? LeftOut.Rough
            : LeftOut.No;
        foreach (var number in LearnableNumber.All)
        {
            if (
                number.Learned is { } learned
                && number.Belief(published) is { } before
                && told.Learned is { } all
                && number.Scale.Belief(learned(all)) is { } after
                && RunEffect.Beyond(before, after) is { } effect
            )
            {
                yield return new(number, SourceOf(broods), effect, doubt);
            }
        }
    }

    // Days from spawning to larvae at the temperature they had, brought to the reference temperature and counted in
    // degree-days above 0 degC, as the source counts them.
    private IEnumerable<RunMessage?> OfEggs(Brood brood)
    {
        if (
            brood.FirstLarvae is null
            || brood.Dropped is not null
            || BroodKnown.Of(_house, brood, outlook.Now, outlook.Zone) is not { } known
            || known.Evidence.AgeUnknown
        )
        {
            yield break;
        }

        var prior = EmbryoPriors.Of(published);
        var middle = prior.Requirement[0].DaysAtReference.Median;
        var open = prior with { Requirement = [new(1, LognormalSpread.FromMedian(middle, OpenLogSd))] };
        HatchPosterior? told = null;
        foreach (var piece in HatchForecast.InPieces(open, known.Evidence))
        {
            told = piece;
            yield return null;
        }

        if (told is { IsContradictory: false } && Effect(prior, known.Evidence, told) is { } effect)
        {
            yield return new(LearnableNumber.All[0], SourceOf([brood.Id]), effect, LeftOut.No);
        }
    }

    private static RunEffect? Effect(EmbryoPrior prior, BroodEvidence evidence, HatchPosterior told)
    {
        var days = told.Median - told.SpawningDays.Middle;
        // By the outer points: a slip of the pen is rare, and would be all of the standard deviation.
        var spawningSd = Sd(told.SpawningDays);
        var hatchSd = Sd(told.Days);
        var (celsius, sd) = Warmth(evidence, told.SpawningDays.Middle, told.Median);
        var above = celsius - prior.BaseCelsius;
        var reference = prior.ReferenceTemperature.Celsius;
        if (days <= 1 || above < 1)
        {
            return null;
        }

        var atReference = days * above / (reference - prior.BaseCelsius);
        var byBase = Math.Abs((1 / above) - (1 / (reference - prior.BaseCelsius))) * prior.BaseSdCelsius;
        var variance =
            (((spawningSd * spawningSd) + (hatchSd * hatchSd)) / (days * days))
            + Math.Pow(sd / above, 2)
            + (byBase * byBase);
        return new RunEffect(Math.Log(atReference * reference), variance);
    }

    private static double Sd(Interval points) => points.Width / (2 * Interval.StandardNormal95);

    // The mean of the readings over the days, each standing for the time half-way to its neighbours.
    private static (double Celsius, double Sd) Warmth(BroodEvidence evidence, double from, double to)
    {
        var readings = evidence
            .Temperatures.Where(reading => reading.Day >= from - 1 && reading.Day <= to + 1)
            .OrderBy(reading => reading.Day)
            .ToList();
        var assumed = evidence.Assumption;
        if (readings.Count == 0)
        {
            return (assumed.Mean.Celsius, assumed.Sd.Celsius);
        }

        var (sum, weights) = (0.0, 0.0);
        for (var i = 0; i < readings.Count; i++)
        {
            var begins = i == 0 ? from : (readings[i - 1].Day + readings[i].Day) / 2;
            var ends = i == readings.Count - 1 ? to : (readings[i].Day + readings[i + 1].Day) / 2;
            var weight = Math.Max(1e-3, Math.Min(to, ends) - Math.Max(from, begins));
            sum += weight * readings[i].Temperature.Celsius;
            weights += weight;
        }

        // Readings few and far between say less of the mean: the wandering between them, forgotten within its days.
        var gaps = (to - from) / (readings.Count * assumed.WanderDays);
        var wander = assumed.Wander.Celsius * Math.Sqrt(Math.Min(1, gaps) / readings.Count);
        var shared = assumed.SharedError.Celsius;
        return (sum / weights, Math.Sqrt((shared * shared) + (wander * wander)));
    }

    private PooledSource SourceOf(IReadOnlyList<BroodId> broods)
    {
        var names = broods.Select(id => (Run: _house.RunOf(id), Brood: _house.Brood(id))).ToList();
        var name = string.Join(
            " + ",
            names.Select(pair => pair.Run?.Name ?? pair.Brood.Name ?? $"{pair.Brood.Id.Value}")
        );
        var key = IsOneOfItsName(name) ? name : $"{names[0].Brood.Id.Value}";
        return new(from is null ? key : $"{key} of {from}", name, from);
    }

    private bool IsOneOfItsName(string name) =>
        _house.Broods.Count(brood =>
            string.Equals(NameOf(_house.RunOf(brood.Id), brood), name, StringComparison.OrdinalIgnoreCase)
        ) <= 1;

    private static string? NameOf(Run? run, Brood brood) => run?.Name ?? brood.Name;
}
