using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Imaging.Spots;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Workbench.Tests.Looking;

/// <summary>Marks of the program and of a person, and what becomes of them.</summary>
public sealed class MarkingsTests
{
    private static readonly SpotMark[] Three = [new(10, 10, 20), new(50.26, 10, 20), new(90, 10, 20)];

    [Fact]
    public void A_mark_of_the_program_is_taken_away_and_comes_back_and_one_of_a_person_is_gone()
    {
        var marks = Markings.OfProgram(Three);
        Assert.Equal((3, PersonLooked.No), (marks.Different, marks.Person));

        var fewer = marks.Touched(1);
        Assert.Equal((2, 1, PersonLooked.WithMarks), (fewer.Different, fewer.Removed, fewer.Person));
        Assert.Equal(3, fewer.Marks.Count);
        Assert.Equal(marks.Marks, fewer.Touched(1).Marks);

        var more = fewer.With(30, 30).With(31, 77.77);
        Assert.Equal((4, 2), (more.Different, more.Added));
        Assert.Equal(77.8, more.Marks[4].Y);
        Assert.Equal(4, more.Touched(3).Marks.Count);
    }

    [Fact]
    public void Who_looked_with_the_marks_is_no_second_looker_and_only_a_lower_bound_follows()
    {
        var seen = Entry(Markings.OfProgram(Three).Touched(0).With(30, 30)).Pictures!;
        Assert.Equal((3, 2, 2), (seen.OfPerson(), seen.OfProgram(), seen.OfBoth()));
        var atLeast = PictureCounts.AtLeast(seen)!.Value;
        Assert.Equal(3, atLeast.Middle, 9);
    }

    // Chapman by hand: (4 + 1)(3 + 1)/(2 + 1) - 1 = 5.667; 5 different were seen.
    [Fact]
    public void Two_who_looked_apart_tell_of_those_that_both_missed()
    {
        var marks = Markings.OfBoth([(11, 11), (52, 9), (200, 200), (300, 10)], Three, reach: 5);
        var entry = Entry(marks);
        Assert.Equal(5, entry.Samples.Single().Seen);
        Assert.Equal(
            (4, 3, 2),
            (entry.Pictures!.OfPerson(), entry.Pictures.OfProgram(), entry.Pictures.OfBoth())
        );
        var atLeast = PictureCounts.AtLeast(entry.Pictures)!.Value;
        Assert.Equal(17 / 3.0, atLeast.Middle, 9);
        Assert.True(atLeast.Low >= 5);
    }

    // Both of the person's marks lie near the first one of the program; the nearer takes it.
    [Fact]
    public void Marks_go_together_one_to_one_the_nearest_first()
    {
        var marks = Markings.OfBoth([(13, 10), (11, 10)], Three, reach: 6);
        Assert.Equal(MarkedBy.Both, marks.Marks[0].By);
        var left = Assert.Single(marks.Marks, mark => mark.By is MarkedBy.Person);
        Assert.Equal(13, left.X);
        Assert.Equal(4, marks.Different);
    }

    [Fact]
    public void Nobody_looked_and_nothing_follows() =>
        Assert.Null(PictureCounts.AtLeast(Entry(Markings.OfProgram(Three)).Pictures!));

    [Fact]
    public void An_entry_can_be_written_and_says_which_frame_was_left_out()
    {
        var entry = Entry(Markings.OfProgram(Three));
        Assert.Null(entry.Impossible());
        Assert.Equal([null, null, true], entry.Pictures!.Pictures.Select(picture => picture.LeftOut));
        Assert.Equal("white dish", entry.Pictures.Setup);
        Assert.Equal(3, entry.Pictures.Counts[0].Marked);
    }

    private static CountMade Entry(Markings marks)
    {
        var frame = new CountedFrame(Three, true);
        var count = new PicturesCounted(Interval.FromPoints(2, 3, 5), 0, [frame, frame, new([], false)], []);
        return PictureCounts.Entry(
            new(new VesselId(Guid.CreateVersion7()), " white dish "),
            [
                .. Enumerable
                    .Range(0, 3)
                    .Select(at => new PictureSeen(new string((char)('a' + at), 64), 640, 480)),
            ],
            count,
            marks,
            [PictureCounts.OfProgram(count, CountedAt.Phone, 640)]
        );
    }
}
