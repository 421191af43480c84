using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Safety.Mending;

/// <summary>The scene of a vessel in which acts are done from now on.</summary>
internal static class MendedScene
{
    /// <summary>The scene with the acts done.</summary>
    public static VesselScene Of(VesselStory story, IEnumerable<MendAct> acts, NewWater water)
    {
        var hours = story.Scene.Hours.ToArray();
        var events = story.Scene.Events.ToList();
        foreach (var act in acts)
        {
            switch (act)
            {
                case MendAct.LeadAir:
                    Alter(
                        hours,
                        story.NowHour,
                        (_, hour) => hour with { Air = hour.Air is AirFlow.None ? AirFlow.Gentle : hour.Air }
                    );
                    break;
                case MendAct.Siphon:
                    events.Add(
                        new VesselEvent.Siphoned(
                            story.NowHour,
                            Probability.FromFraction(StoryTelling.SiphonedShare)
                        )
                    );
                    break;
                case MendAct.Light light:
                    Relight(story, hours, light.HoursPerDay);
                    break;
                case MendAct.ChangeWater change:
                    var at =
                        story.NowHour + (int)Math.Round((change.At - story.At(story.NowHour)).TotalHours);
                    events.Add(new VesselEvent.WaterMoved(at, change.Volume, change.Volume, water.Content));
                    var share = change.Share.Value;
                    Alter(
                        hours,
                        at,
                        (_, hour) =>
                            hour with
                            {
                                Salinity = Salinity.FromPractical(
                                    (hour.Salinity.Practical * (1 - share))
                                        + (change.Salinity.Practical * share)
                                ),
                            }
                    );
                    break;
                default:
                    // No food: the days ahead are told with nothing given.
                    break;
            }
        }

        return story.Scene with
        {
            Hours = [.. hours],
            Events = [.. events.OrderBy(done => done.Hour)],
        };
    }

    /// <summary>The scene in which a ration is given again at an hour.</summary>
    public static VesselScene Fed(VesselScene scene, int hour, FoodGiven food, double share = 1) =>
        scene with
        {
            Events =
            [
                .. scene
                    .Events.Append(
                        new VesselEvent.Fed(
                            hour,
                            Mass.FromGrams(food.DryMass.Grams * share),
                            food.Composition
                        )
                    )
                    .OrderBy(done => done.Hour),
            ],
        };

    private static void Relight(VesselStory story, VesselHour[] hours, double hoursPerDay)
    {
        var brightest = hours.Max(hour => hour.LightMicromoles);
        // The lamp goes on when it did last.
        var first = Array.FindLastIndex(hours, story.NowHour, hour => hour.LightMicromoles > 0);
        while (first > 0 && hours[first - 1].LightMicromoles > 0)
        {
            first--;
        }

        Alter(
            hours,
            story.NowHour,
            (at, hour) =>
            {
                var since = (((at - Math.Max(first, 0)) % 24) + 24) % 24;
                return hour with { LightMicromoles = since < hoursPerDay ? brightest : 0 };
            }
        );
    }

    private static void Alter(VesselHour[] hours, int from, Func<int, VesselHour, VesselHour> changed)
    {
        for (var at = from; at < hours.Length; at++)
        {
            hours[at] = changed(at, hours[at]);
        }
    }
}
