using Broodtide.Domain.Broods;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Review;

/// <summary>What was lost in each phase. The sea is told by the estimator, fresh water and return by their own counts.</summary>
internal sealed class ReviewPhases(ReviewSpan span)
{
    /// <summary>How long after a crossing its own losses show; practice, no source.</summary>
    public static readonly Duration CrossingShows = Duration.FromDays(2);

    // A count so soon after the end of a phase still speaks of it.
    private static readonly Duration CountSpeaks = Duration.FromDays(3);

    private static readonly LossPhase[] AtSea =
    [
        LossPhase.Crossing,
        LossPhase.Early,
        LossPhase.Middle,
        LossPhase.Metamorphosis,
    ];

    // Relative error of a number by how it was made, from which two numbers of the same larvae are held against each
    // other; from the detection that the estimator supposes.
    private static double ErrorOf(CountMethod? method)
    {
        var seen = method switch
        {
            CountMethod.Full => SeenByLook.Full,
            CountMethod.Photo => SeenByLook.Photo,
            CountMethod.Beam => SeenByLook.BeamInDark,
            CountMethod.Aliquot => SeenByLook.BeamInLight,
            _ => SeenByLook.Glance,
        };
        // A beta law: its standard deviation over its mean.
        return Math.Sqrt(seen.B / (seen.A * (seen.A + seen.B + 1)));
    }

    /// <summary>The phases in pieces: none at each pause, the answer last.</summary>
    public IEnumerable<IReadOnlyList<PhaseLoss>?> InPieces()
    {
        var sea = new List<PhaseLoss>();
        if (span.Brood.Crossings.Count > 0 && span.Outlook.PopulationOf(span.Brood.Id) is { } population)
        {
            foreach (var step in span.Outlook.StepsOf(population))
            {
                step();
                yield return null;
            }

            var estimate = span.Outlook.EstimateOf(population);
            var bounds = Bounds(estimate);
            IReadOnlyList<LarvalLoss>? losses = null;
            if (estimate.Learned is { } learned)
            {
                foreach (
                    var some in LarvalLosses.InPieces(
                        population.Run,
                        learned,
                        [.. bounds.Select(at => Math.Max(0, population.Clock.DayOf(at)))]
                    )
                )
                {
                    losses = some;
                    yield return null;
                }
            }

            for (var i = 0; i < AtSea.Length; i++)
            {
                sea.Add(AtSeaPhase(AtSea[i], bounds[i], bounds[i + 1], losses?[i], population));
            }
        }
        else
        {
            sea.AddRange(AtSea.Select(NotReached));
        }

        yield return [FreshWater(), .. sea, Return()];
    }

    private static PhaseLoss NotReached(LossPhase phase) =>
        new(phase, null, null, LossKnown.NotReached, null, null, null, new Remark("phase-not-reached"));

    // From the first crossing on: two days after the last, then as half of those alive have left a third of the stages.
    private Instant[] Bounds(PopulationEstimate estimate)
    {
        var crossings = span.Brood.Crossings;
        var end = End();
        var first = Instant.Min(crossings[0].When.Earliest, end);
        var crossed = Instant.Min(crossings[^1].When.Latest + CrossingShows, end);
        var profile = span.Profile;
        var early = After(LifeStage.EarlyZoea);
        var middle = After(LifeStage.MiddleZoea);
        var done = After(LifeStage.LateZoea, 0.1);
        var e = Later(early, crossed);
        var m = Later(middle, e);
        return [first, crossed, e, m, Later(done, m)];

        Instant Later(Instant at, Instant than) => Instant.Min(Instant.Max(at, than), end);

        Instant After(LifeStage last, double share = 0.5)
        {
            foreach (var point in estimate.Track)
            {
                var left = 0.0;
                for (var stage = 0; stage < point.StageShares.Count; stage++)
                {
                    left += profile.LifeStageOf(stage + 1) <= last ? point.StageShares[stage] : 0;
                }

                if (point.At > crossed && point.StageShares.Sum() > 0 && left < share)
                {
                    return point.At;
                }
            }

            return end;
        }
    }

    // What was poured away is no loss of its own.
    private Instant End() =>
        span.Stays.Count > 0
            ? Instant.Min(span.Until, span.Stays.Max(stay => stay.Until)) - Duration.FromSeconds(10)
            : span.Until;

    private PhaseLoss AtSeaPhase(
        LossPhase phase,
        Instant from,
        Instant until,
        LarvalLoss? loss,
        LarvalPopulation population
    )
    {
        if (loss is null || until <= from)
        {
            return NotReached(phase);
        }

        var counts = span.Facts<CountMade>().Select(told => told.When).ToList();
        if (counts.Count == 0)
        {
            return new(
                phase,
                from,
                until,
                LossKnown.CannotBeTold,
                null,
                null,
                null,
                new Remark("phase-never-counted")
            );
        }

        if (!counts.Exists(at => at >= from))
        {
            return new(
                phase,
                from,
                until,
                LossKnown.CannotBeTold,
                null,
                null,
                null,
                new Remark("phase-not-counted-since", new Argument("when", counts[^1]))
            );
        }

        var within = counts.Count(at => at >= from && at <= until + CountSpeaks);
        var shared = population.Broods.Any(brood => brood != span.Brood.Id);
        return new(
            phase,
            from,
            until,
            within > 0 ? LossKnown.Counted : LossKnown.BetweenCounts,
            loss.Came,
            loss.Lost,
            loss.LostShare,
            new Remark(
                shared ? "phase-with-other-broods"
                    : within > 0 ? "phase-counted"
                    : "phase-between-counts",
                new Argument("counts", within)
            )
        );
    }

    private PhaseLoss FreshWater()
    {
        var brood = span.Brood;
        if (brood.FirstLarvae is not { } first)
        {
            return NotReached(LossPhase.FreshWater);
        }

        var until =
            brood.Crossings.Count > 0 ? Instant.Min(brood.Crossings[^1].When.Latest, span.Until) : span.Until;
        var gathered = brood.Gatherings.ToList();
        var numbers = gathered.TrueForAll(gathering => gathering.Made.Number is not null);
        if (gathered.Count == 0 || !numbers || brood.Crossings.Any(it => it.Made.Number is null))
        {
            return Untold(new Remark("phase-no-two-numbers"));
        }

        var came = gathered.Sum(gathering => (double)gathering.Made.Number!.Value);
        if (brood.Crossings.Count == 0)
        {
            // Fresh water kills in days: what never crossed by then is lost.
            var dead =
                until - gathered.Max(gathering => gathering.When.Latest) > span.Profile.LarvaFreshWaterLethal;
            return dead && came > 0
                ? new(
                    LossPhase.FreshWater,
                    first.Earliest,
                    until,
                    LossKnown.BetweenCounts,
                    Interval.Exactly(came),
                    Interval.Exactly(came),
                    Interval.Exactly(1),
                    new Remark("phase-never-crossed")
                )
                : Untold(new Remark("phase-no-two-numbers"));
        }

        if (gathered.Count == brood.Crossings.Count && gathered.Zip(brood.Crossings).All(SameNumber))
        {
            return Untold(new Remark("phase-one-number"));
        }

        var crossed = brood.Crossings.Sum(crossing => (double)crossing.Made.Number!.Value);
        var spread = Math.Sqrt(
            SquaredError(gathered.Select(it => (it.Made.Number!.Value, it.Made.Method)))
                + SquaredError(brood.Crossings.Select(it => (it.Made.Number!.Value, it.Made.Method)))
        );
        return came <= 0
            ? Untold(new Remark("phase-no-two-numbers"))
            : Of(LossPhase.FreshWater, first.Earliest, until, came, crossed, spread);

        PhaseLoss Untold(Remark why) =>
            new(LossPhase.FreshWater, first.Earliest, until, LossKnown.CannotBeTold, null, null, null, why);

        static bool SameNumber((Gathering Gathered, Crossover Crossed) pair) =>
            pair.Gathered.Made.Number == pair.Crossed.Made.Number
            && pair.Gathered.Made.Method == pair.Crossed.Made.Method;
    }

    // Two numbers of the same larvae, each with a relative error: the ratio by its logarithm.
    private static PhaseLoss Of(
        LossPhase phase,
        Instant from,
        Instant until,
        double came,
        double left,
        double spread
    )
    {
        double Share(double aside) =>
            1 - Math.Clamp(left / came * Math.Exp(aside * Interval.StandardNormal95 * spread), 0, 1);
        var share = Interval.FromPoints(Share(1), Share(0), Share(-1));
        return new(
            phase,
            from,
            until,
            LossKnown.Counted,
            Interval.Exactly(came),
            Interval.FromPoints(
                Math.Round(came * share.Low),
                Math.Round(came * share.Middle),
                Math.Round(came * share.High)
            ),
            share,
            new Remark("phase-two-numbers", new Argument("first", came), new Argument("second", left))
        );
    }

    private static double SquaredError(IEnumerable<(int Number, CountMethod? Method)> numbers)
    {
        var all = numbers.ToList();
        var sum = Math.Max(1, all.Sum(it => (double)it.Number));
        return all.Sum(it => Math.Pow(ErrorOf(it.Method) * it.Number / sum, 2));
    }

    // What came into the nurseries, held against their last count.
    private PhaseLoss Return()
    {
        var back = span
            .Vessels.SelectMany(vessel => span.Facts<JuvenilesReturned>(vessel.Id, span.From, span.Until))
            .Where(told => span.Vessels.Any(vessel => vessel.Id == told.Fact.From))
            .DistinctBy(told => told.Entry)
            .OrderBy(told => told.When)
            .ToList();
        if (back.Count == 0)
        {
            return NotReached(LossPhase.Return);
        }

        var now = span.Outlook.Now;
        var books = back.Select(told => told.Fact.To)
            .Distinct()
            .Select(to => NurseryBook.Of(span.House, to, span.Profile, now))
            .OfType<NurseryBook>()
            .ToList();
        var others = books.Exists(book =>
            book.Home.Any(came => span.Vessels.All(vessel => vessel.Id != came.From))
        );
        if (
            others
            || back.Exists(told => told.Fact.Number is null)
            || books.Count == 0
            || books.Exists(book => book.Counts.Count == 0 || book.SurvivedShare is null)
        )
        {
            return new(
                LossPhase.Return,
                back[0].When,
                now,
                LossKnown.CannotBeTold,
                null,
                null,
                null,
                new Remark(others ? "phase-nursery-shared" : "phase-nursery-not-counted")
            );
        }

        var came = back.Sum(told => (double)told.Fact.Number!.Value);
        double Lived(Func<Interval, double> point) =>
            books.Sum(book =>
                point(book.SurvivedShare!.Value) * book.Home.Sum(home => (double)(home.Number ?? 0))
            ) / Math.Max(1, came);
        var share = Interval.FromPoints(
            1 - Math.Clamp(Lived(it => it.High), 0, 1),
            1 - Math.Clamp(Lived(it => it.Middle), 0, 1),
            1 - Math.Clamp(Lived(it => it.Low), 0, 1)
        );
        return new(
            LossPhase.Return,
            back[0].When,
            books.Max(book => book.Counts[^1].When.Latest),
            LossKnown.Counted,
            Interval.Exactly(came),
            Interval.FromPoints(
                Math.Round(came * share.Low),
                Math.Round(came * share.Middle),
                Math.Round(came * share.High)
            ),
            share,
            new Remark("phase-nursery-counted", new Argument("counts", books.Sum(book => book.Counts.Count)))
        );
    }
}
