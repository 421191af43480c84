using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Safety;

/// <summary>
/// What contributes most to the crossing of a limit, found by running the last days and those ahead once more without it.
/// </summary>
internal sealed class Causes
{
    // What was given in the week before is run again without it; the last day's share counts for the whole where it does most.
    private const int DaysBack = 7;
    private const int LastHours = 24;
    private const double LeastPart = 0.1;
    private const double MostOfIt = 0.7;

    private readonly VesselRun _run;
    private readonly VesselEnsemble _from;
    private readonly List<(Remark Cause, bool IsPart, VesselScene Without)> _scenes = [];
    private readonly List<(Remark Cause, bool IsPart, VesselTraces Traces)> _without = [];
    private VesselTraces? _as;

    public Causes(VesselRun run)
    {
        _run = run;
        var story = run.Story;
        _from = run.NotAfter(Math.Max(0, story.NowHour - (24 * DaysBack)));
        var litres = story.Scene.Hours[Math.Max(0, story.NowHour - 1)].Water.Litres;
        foreach (
            var foods in story
                .Foods.Where(food => food.Hour >= _from.Hour)
                .GroupBy(food => (food.Food, food.Feed))
        )
        {
            var lately = foods.Where(food => food.Hour > story.NowHour - LastHours).ToList();
            AddFood(foods.Key.Food, foods.Key.Feed, lately, litres, isPart: lately.Count < foods.Count());
            if (lately.Count < foods.Count())
            {
                AddFood(foods.Key.Food, foods.Key.Feed, [.. foods], litres, isPart: false);
            }
        }

        var ahead = story.Scene.Hours[story.NowHour];
        if (ahead.Larvae.Middle >= 1)
        {
            _scenes.Add(
                (
                    new Remark(
                        "safety-cause-larvae",
                        new Argument("number", Math.Round(ahead.Larvae.Middle))
                    ),
                    false,
                    story.Scene with
                    {
                        Hours = [.. story.Scene.Hours.Select(hour => hour with { Larvae = default })],
                    }
                )
            );
        }

        if (ahead.Air is AirFlow.None)
        {
            _scenes.Add(
                (
                    new Remark("safety-cause-no-air"),
                    false,
                    story.Scene with
                    {
                        Hours = [.. story.Scene.Hours.Select(hour => hour with { Air = AirFlow.Gentle })],
                    }
                )
            );
        }
    }

    /// <summary>Runs a day of one of the scenes each time; whoever may not be held up pauses between.</summary>
    public IEnumerable<bool> InPieces()
    {
        foreach (var (place, scene) in _scenes.Select(it => it.Without).Prepend(_run.Story.Scene).Index())
        {
            var members = _from;
            while (members.Hour < _run.Story.NowHour)
            {
                var hours = Math.Min(24, _run.Story.NowHour - members.Hour);
                members = VesselTwin.Forward(members, scene, hours).End;
                yield return true;
            }

            var traces = VesselTwin.Forward(members, scene, VesselStory.HoursAhead).Traces;
            if (place == 0)
            {
                _as = traces;
            }
            else
            {
                _without.Add((_scenes[place - 1].Cause, _scenes[place - 1].IsPart, traces));
            }

            yield return true;
        }
    }

    /// <summary>What contributes most to a limit; what is in the water itself where nothing stands out.</summary>
    public Remark Of(LifeLimit limit, VesselQuantity quantity)
    {
        var nothing = new Remark("safety-cause-water");
        if (_as is null)
        {
            return nothing;
        }

        var own = Middle(_as, quantity, limit);
        var better = _without
            .Select(it =>
                (
                    it.Cause,
                    it.IsPart,
                    By: (limit.IsUpper ? 1 : -1) * (own - Middle(it.Traces, quantity, limit))
                )
            )
            .ToList();
        var most = better.Where(it => !it.IsPart).OrderByDescending(it => it.By).FirstOrDefault();
        if (most.Cause is null || most.By < LeastPart * Math.Max(Math.Abs(own), 1e-9))
        {
            return nothing;
        }

        var part = better.FirstOrDefault(it =>
            it.IsPart && Equals(it.Cause["food"], most.Cause["food"]) && it.By >= MostOfIt * most.By
        );
        return part.Cause ?? most.Cause;
    }

    private void AddFood(
        Domain.Vessels.FoodKind food,
        string? feed,
        List<FoodGiven> given,
        double litres,
        bool isPart
    )
    {
        if (given.Count == 0)
        {
            return;
        }

        var scene = _run.Story.Scene;
        _scenes.Add(
            (
                new Remark(
                    "safety-cause-food",
                    new("food", feed ?? StoryTelling.Words(food)),
                    new("milligramsPerLitre", given.Sum(it => it.DryMass.Milligrams) / litres),
                    new("litres", litres),
                    new("times", (double)given.Count)
                ),
                isPart,
                scene with
                {
                    Events = [.. scene.Events.Where(done => !IsAmong(done, given))],
                }
            )
        );
    }

    private static double Middle(VesselTraces traces, VesselQuantity quantity, LifeLimit limit) =>
        MemberQuantiles.Of(traces.Extremes(quantity, 0, traces.Hours, limit.IsUpper).ToArray()).Middle;

    private static bool IsAmong(VesselEvent done, IEnumerable<FoodGiven> foods) =>
        done is VesselEvent.Fed fed
        && foods.Any(food =>
            food.Hour == fed.Hour && food.DryMass == fed.DryMass && food.Composition == fed.Composition
        );
}
