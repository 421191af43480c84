using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Demo;

/// <summary>
/// An invented run to measure a machine with: six crossings into one jar, 45 days, 40 entries. Nobody kept these
/// larvae.
/// </summary>
public static class SixCrossings
{
    /// <summary>How many days its larvae have been in the sea.</summary>
    public const int Days = 45;

    /// <summary>Its entries, oldest first. Equal arguments give equal drafts.</summary>
    /// <param name="now">The instant the story has come to; nothing is written after it.</param>
    /// <param name="zone">The keeper's zone.</param>
    public static IReadOnlyList<Draft> Drafts(Instant now, DateTimeZone zone)
    {
        var story = new StoryTeller(now.InZone(zone).Date, zone);
        var (jar, brood) = (new VesselId(story.Identity()), new BroodId(story.Identity()));
        story.TellBetween(story.At(-Days - 1, 23), story.At(-Days, 6), new HatchingSeen(brood));
        story.Tell(story.At(-Days - 1, 18), Household.Vessel(jar, "Jar of six", VesselRole.LarvalVessel, 10));
        story.Tell(story.At(-Days - 1, 19), Household.Filled(story, jar, 9, 31, 24.5));
        Cross(story, jar, brood);
        Keep(story, jar);
        Count(story, jar);
        return [.. story.Drafts.Where(draft => draft.Written <= now).OrderBy(draft => draft.Written)];
    }

    private static void Cross(StoryTeller story, VesselId jar, BroodId brood)
    {
        int[] numbers = [64, 120, 85, 140, 52, 30];
        for (var night = 0; night < numbers.Length; night++)
        {
            story.Tell(
                story.At(-Days + night, 7, 30),
                new CrossingMade(
                    new(story.Identity()),
                    brood,
                    jar,
                    Number: numbers[night],
                    Method: night % 2 == 0 ? CountMethod.Full : CountMethod.Beam
                )
            );
        }
    }

    private static void Keep(StoryTeller story, VesselId jar)
    {
        double[] celsius = [24.5, 24.8, 25.1, 24.2, 23.9, 24.6, 25.0, 24.4, 24.7];
        for (var i = 0; i < celsius.Length; i++)
        {
            story.Tell(
                story.At(-Days + 2 + (5 * i), 8),
                new ReadingTaken(TypedNumber.Of(celsius[i], "Cel"), jar)
            );
        }

        for (var week = 0; week < 6; week++)
        {
            var when = story.At(-Days + 1 + (7 * week), 20);
            story.Tell(
                when,
                week % 2 == 0
                    ? new VesselFed(jar, FoodKind.GreenWater)
                    : new WaterMoved(To: jar, ToLine: true)
            );
        }

        story.Tell(story.At(-38, 21), new DeadRemoved(jar, 6));
        story.Tell(story.At(-19, 21), new DeadRemoved(jar, 3));
    }

    private static void Count(StoryTeller story, VesselId jar)
    {
        (int Day, int[] Seen)[] aliquots =
        [
            (-37, [10, 13, 9, 12]),
            (-27, [8, 7, 10, 9]),
            (-16, [5, 7, 6, 4]),
            (-6, [4, 3, 5, 4]),
        ];
        foreach (var (day, seen) in aliquots)
        {
            story.Tell(
                story.At(day, 22),
                new CountMade(
                    jar,
                    CountMethod.Aliquot,
                    [.. seen.Select(number => new Aliquot(number, TypedNumber.Of(250, "mL")))]
                )
            );
        }

        (int Day, CountMethod Method, int Seen)[] looks =
        [
            (-33, CountMethod.Beam, 190),
            (-30, CountMethod.Glance, 60),
            (-23, CountMethod.Beam, 130),
            (-20, CountMethod.Glance, 40),
            (-11, CountMethod.Beam, 45),
            (-2, CountMethod.Beam, 20),
        ];
        foreach (var (day, method, seen) in looks)
        {
            story.Tell(story.At(day, 22, 20), new CountMade(jar, method, [new Aliquot(seen)]));
        }

        (int Day, (string Stage, int Number)[] Seen)[] samples =
        [
            (-36, [("Z2", 6), ("Z3", 4)]),
            (-26, [("Z4", 5), ("Z5", 5)]),
            (-15, [("Z6", 3), ("Z7", 6), ("Z8", 1)]),
            (-5, [("Z8", 4), ("Z9", 6)]),
        ];
        foreach (var (day, seen) in samples)
        {
            story.Tell(
                story.At(day, 22, 40),
                new StageSampleTaken(jar, [.. seen.Select(one => new StageTally(one.Stage, one.Number))])
            );
        }
    }
}
