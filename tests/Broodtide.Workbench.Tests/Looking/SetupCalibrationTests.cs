using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.Tests.Population;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Looking;

/// <summary>What containers and lamps teach of counts in pictures, and what follows for the larvae alive.</summary>
public sealed class SetupCalibrationTests
{
    private const string Dish = "white dish, lamp at the side";
    private static readonly int[] KnownNumbers = [6, 10, 14, 20, 26, 34, 44, 52, 60];
    private static readonly VesselId Box = new(Fixed(41));

    [Fact]
    public void Known_numbers_and_looks_of_a_person_are_points_of_their_own_setup()
    {
        var story = Of200()
            .Tell(1, InPictures(Box, 20, Dish, known: 24))
            .Tell(2, InPictures(Box, 0, Dish.ToUpperInvariant(), known: 0))
            .Tell(3, InPictures(Box, 30, "tub"))
            .Tell(4, InPictures(Box, 30, " tub ", added: 5));
        var house = story.Outlook(10).House;

        Assert.Equal(["tub", Dish.ToUpperInvariant()], SetupCalibrations.Names(house));
        var dish = SetupCalibrations.Of(house, Dish);
        Assert.Equal(
            [(24, 20), (0, 0)],
            dish.Points.Select(it => ((int)it.Point.Known, (int)it.Point.Counted))
        );
        Assert.All(dish.Points, point => Assert.Equal(KnownBy.OneByOne, point.By));
        var tub = Assert.Single(SetupCalibrations.Of(house, "TUB").Points);
        Assert.Equal((35, 30, KnownBy.Corrected), ((int)tub.Point.Known, (int)tub.Point.Counted, tub.By));
        Assert.Empty(SetupCalibrations.Of(house, "bucket").Points);
        Assert.Empty(SetupCalibrations.Of(house, Dish, Day(0.5)).Points);
    }

    [Fact]
    public void A_setup_in_which_half_is_counted_says_that_more_are_alive_and_one_in_which_all_are_says_fewer()
    {
        var unknown = Alive(Counted(null));
        var half = Alive(Counted(0.5));
        var all = Alive(Counted(1.2));

        Assert.True(half > 1.3 * unknown, $"{half} against {unknown}");
        Assert.True(all < unknown, $"{all} against {unknown}");
        Assert.InRange(half, 90, 150);
        Assert.InRange(all, 35, 65);
    }

    [Fact]
    public void Calibration_speaks_of_what_the_program_counted_and_not_of_what_a_person_changed()
    {
        var looked = Alive(Counted(0.5, added: 5));
        Assert.True(looked < 0.8 * Alive(Counted(0.5)), $"{looked}");
    }

    [Fact]
    public void A_picture_of_a_known_number_is_no_count_of_the_vessel_it_came_from()
    {
        var without = new LarvalStory().Tell(0, Into(First, JarA, 200, CountMethod.Glance));
        var with = new LarvalStory()
            .Tell(0, Into(First, JarA, 200, CountMethod.Glance))
            .Tell(2, InPictures(JarA, 8, Dish, known: 8));
        Assert.Equal(Alive(without), Alive(with), 6);
    }

    // Larvae nobody numbered, then three pictures of 60 marks each; before that what the set-up counts of known numbers.
    private static LarvalStory Counted(double? share, int added = 0)
    {
        var story = new LarvalStory();
        if (share is { } counted)
        {
            for (var at = 0; at < KnownNumbers.Length; at++)
            {
                var marked = (int)Math.Round(counted * KnownNumbers[at]);
                story.Tell(-20 + at, InPictures(Box, marked, Dish, known: KnownNumbers[at]));
            }
        }

        story.Tell(0, Into(First, JarA, null));
        for (var day = 1; day <= 3; day++)
        {
            story.Tell(day, InPictures(JarA, 60, Dish, added: added));
        }

        return story;
    }

    private static double Alive(LarvalStory story) => story.Estimate(3.1).All.Alive.Middle;

    private static CountMade InPictures(
        VesselId vessel,
        int marked,
        string setup,
        int? known = null,
        int added = 0
    )
    {
        var marks = Enumerable
            .Range(0, marked)
            .Select(at => new PlacedMark(at, at))
            .Concat(Enumerable.Range(0, added).Select(at => new PlacedMark(at, 500, MarkedBy.Person)))
            .ToList();
        return new(
            vessel,
            CountMethod.Photo,
            [new Aliquot(marks.Count)],
            Pictures: new(
                [new(new string('a', 64), 1000, 800)],
                0,
                [new(CountedAt.Phone, 1000, marked, marked, marked, marked)],
                marks,
                added > 0 ? PersonLooked.WithMarks : PersonLooked.No,
                setup,
                known
            )
        );
    }
}
