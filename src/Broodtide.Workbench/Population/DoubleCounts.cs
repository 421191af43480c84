using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Population;

/// <summary>
/// What a keeper's looks see, learned from looks that stand beside a full count or aliquots of the same larvae. A
/// population takes only the pairs of others: its own are weighed by its own estimate.
/// </summary>
/// <remarks>
/// For each keeper and way of looking: normal belief in the logit of the chance, practice before any pair; the number
/// seen is negative binomial about chance times number, the number lognormal. Each pair counts for half, and what is
/// learned is widened, since another vessel and another day are not the same. See docs/science/counting.md.
/// </remarks>
internal sealed class DoubleCounts
{
    // Assumptions of this project.
    private const double PairWeight = 0.5;
    private const double BetweenVesselsLogitSd = 0.35;
    private const double LateShare = 0.1;

    // Fewer than this tell nothing of a share.
    private const double LeastNumber = 5;
    private const double FullCountLogSd = 0.03;
    private const int Steps = 240;
    private const double ReachSd = 5;
    private static readonly Duration SameLarvae = Duration.FromHours(6);

    // Five points of Gauss and Hermite for a standard normal (Abramowitz and Stegun 25.10, scaled).
    private static readonly (double Z, double Weight)[] Nodes =
    [
        (-2.8569700138728056, 0.011257411327720688),
        (-1.355626179974266, 0.2220759220056126),
        (0, 0.5333333333333333),
        (1.355626179974266, 0.2220759220056126),
        (2.8569700138728056, 0.011257411327720688),
    ];

    private readonly List<Pair> _pairs = [];

    /// <summary>The pairs of a house.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="profileOf">Whose numbers apply to a brood.</param>
    /// <param name="water">Water of a vessel at an instant; none where nobody knows.</param>
    /// <param name="now">Later ones are passed over.</param>
    internal static DoubleCounts Of(
        House house,
        Func<BroodId?, SpeciesProfile> profileOf,
        Func<VesselId, Instant, Volume?> water,
        Instant now
    )
    {
        var doubles = new DoubleCounts();
        var told = house
            .Account.Occurrences.Where(occurrence =>
                occurrence.Fact is CountMade && occurrence.Happened.Middle <= now
            )
            .Order(OrderOfTelling.Instance)
            .Select(occurrence => (Told: occurrence, Count: (CountMade)occurrence.Fact))
            .ToLookup(counted => counted.Count.Vessel);
        foreach (var vessel in told)
        {
            foreach (var look in vessel.Where(counted => IsLook(counted.Count)))
            {
                var at = look.Told.Happened.Middle;
                var better = vessel
                    .Where(other =>
                        other.Count.Cohort == look.Count.Cohort
                        && Apart(other.Told.Happened.Middle, at) <= SameLarvae
                    )
                    .Select(other =>
                        (
                            other.Count.Method,
                            Apart: Apart(other.Told.Happened.Middle, at),
                            Number: NumberOf(other.Count, water, other.Told.Happened.Middle)
                        )
                    )
                    .Where(other => other.Number is { Middle: >= LeastNumber, Low: > 0 })
                    .OrderBy(other => other.Method == CountMethod.Full ? 0 : 1)
                    .ThenBy(other => other.Apart)
                    .FirstOrDefault();
                if (better.Number is { } number && !AreLate(house, profileOf, vessel.Key, at))
                {
                    doubles._pairs.Add(
                        new(
                            look.Told.Author.Name,
                            LookClasses.Way(look.Count),
                            vessel.Key,
                            at,
                            (int)Math.Min(1e6, look.Count.Samples.Sum(s => (double)Math.Max(0, s.Seen))),
                            LookClasses.ScatterOf(look.Count.Method),
                            number
                        )
                    );
                }
            }
        }

        return doubles;
    }

    /// <summary>The chance that a keeper's look sees a larva, for a population.</summary>
    /// <param name="keeper">Who looks.</param>
    /// <param name="way">How.</param>
    /// <param name="practice">What is believed of such looks before any pair.</param>
    /// <param name="own">The population: its pairs are left to its own estimate.</param>
    internal ShareBelief Belief(string keeper, string way, ShareBelief practice, LarvalGroup own)
    {
        var pairs = _pairs
            .Where(pair => pair.Keeper == keeper && pair.Way == way && !own.Holds(pair.Vessel, pair.At))
            .ToList();
        if (pairs.Count == 0 || practice.LogitSd <= 0)
        {
            return practice;
        }

        var middle = Math.Log(practice.Median / (1 - practice.Median));
        var logits = new double[Steps + 1];
        var logs = new double[Steps + 1];
        for (var i = 0; i <= Steps; i++)
        {
            var z = ReachSd * ((2.0 * i / Steps) - 1);
            logits[i] = middle + (practice.LogitSd * z);
            var chance = 1 / (1 + Math.Exp(-logits[i]));
            logs[i] = (-z * z / 2) + (PairWeight * pairs.Sum(pair => pair.Log(chance)));
        }

        var highest = logs.Max();
        double sum = 0;
        double first = 0;
        double second = 0;
        for (var i = 0; i <= Steps; i++)
        {
            var weight = Math.Exp(logs[i] - highest);
            sum += weight;
            first += weight * logits[i];
            second += weight * logits[i] * logits[i];
        }

        var mean = first / sum;
        var variance = Math.Max(0, (second / sum) - (mean * mean));
        return new(
            Math.Clamp(1 / (1 + Math.Exp(-mean)), 1e-6, 1 - 1e-6),
            Math.Sqrt(variance + (BetweenVesselsLogitSd * BetweenVesselsLogitSd))
        );
    }

    private static bool IsLook(CountMade count) =>
        count.Method is CountMethod.Glance or CountMethod.Beam or CountMethod.Photo
        && count.Samples.Count > 0
        && count.Pictures?.Known is null;

    private static Duration Apart(Instant one, Instant other) => one > other ? one - other : other - one;

    private static Interval? NumberOf(CountMade count, Func<VesselId, Instant, Volume?> water, Instant at)
    {
        if (count.Method == CountMethod.Aliquot)
        {
            return CountMeanings.Of(count, water(count.Vessel, at)).Larvae;
        }

        var seen = count.Samples.Sum(sample => (double)Math.Max(0, sample.Seen));
        var reach = Math.Exp(Interval.StandardNormal95 * FullCountLogSd);
        return count.Method == CountMethod.Full && count.Samples.Count > 0
            ? Interval.FromPoints(seen / reach, seen, seen * reach)
            : null;
    }

    // Larvae past the attraction to light hide from a look; what it sees of them says nothing of younger ones.
    private static bool AreLate(
        House house,
        Func<BroodId?, SpeciesProfile> profileOf,
        VesselId vessel,
        Instant at
    )
    {
        foreach (var cohort in house.Cohorts.Where(cohort => cohort.VesselsAt(at).Contains(vessel)))
        {
            var profile = profileOf(cohort.Brood);
            var stages = LarvalBeliefs.Stages(profile);
            if (stages.LightFadesFrom >= stages.Count)
            {
                continue;
            }

            var begins = stages.LightFadesFrom == 0 ? 0 : stages.Ends[stages.LightFadesFrom - 1];
            var quickest = profile.Quantity(QuantityCodes.LarvalDays).Low ?? 0;
            var since = cohort.Groups.Min(part => part.Since.Middle);
            if ((at - since).TotalDays >= begins * quickest || StagedLate(house, profile, stages, cohort, at))
            {
                return true;
            }
        }

        return false;
    }

    private static bool StagedLate(
        House house,
        SpeciesProfile profile,
        LarvalStages stages,
        Cohort cohort,
        Instant at
    ) =>
        cohort
            .VesselsAt(at)
            .SelectMany(vessel => house.Told<StageSampleTaken>(Subject.Of(vessel)))
            .Where(occurrence =>
                occurrence.Happened.Middle <= at
                && occurrence.Happened.Middle >= cohort.Groups.Min(part => part.Since.Middle)
            )
            .Select(occurrence => (StageSampleTaken)occurrence.Fact)
            .Any(sample =>
            {
                double late = 0;
                double all = 0;
                foreach (var tally in sample.Stages.Where(tally => tally.Number > 0))
                {
                    var place = profile
                        .Stages.Select(stage => stage.Code)
                        .ToList()
                        .FindIndex(code =>
                            string.Equals(code, tally.Stage, StringComparison.OrdinalIgnoreCase)
                        );
                    all += tally.Number;
                    late += place >= stages.LightFadesFrom ? tally.Number : 0;
                }

                return late > LateShare * all;
            });

    private sealed record Pair(
        string Keeper,
        string Way,
        VesselId Vessel,
        Instant At,
        int Seen,
        double Scatter,
        Interval Number
    )
    {
        // Log likelihood of a chance to be seen, but for what does not depend on it.
        internal double Log(double chance)
        {
            var spread = Math.Log(Number.High / Number.Low) / (2 * Interval.StandardNormal95);
            double likelihood = 0;
            var scale = double.NegativeInfinity;
            Span<double> logs = stackalloc double[5];
            for (var i = 0; i < Nodes.Length; i++)
            {
                var mean = chance * Number.Middle * Math.Exp(spread * Nodes[i].Z);
                logs[i] = (Seen * Math.Log(mean)) - ((Seen + Scatter) * Math.Log(Scatter + mean));
                scale = Math.Max(scale, logs[i]);
            }

            for (var i = 0; i < Nodes.Length; i++)
            {
                likelihood += Nodes[i].Weight * Math.Exp(logs[i] - scale);
            }

            return scale + Math.Log(likelihood);
        }
    }
}
