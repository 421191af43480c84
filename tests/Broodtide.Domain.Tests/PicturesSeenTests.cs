using Broodtide.Domain.Larvae;
using Broodtide.Domain.Tests.Kit;

namespace Broodtide.Domain.Tests;

/// <summary>What a count in pictures may hold.</summary>
public class PicturesSeenTests
{
    private static readonly CountMade Count = Samples.All.OfType<CountMade>().Single();

    private static readonly PicturesSeen Seen = Count.Pictures!;

    public static TheoryData<string, PicturesSeen> Wrong() =>
        new()
        {
            { "pictures-none", Seen with { Pictures = [] } },
            { "pictures-none", Seen with { Counts = [] } },
            { "list-has-a-hole", Seen with { Marks = [null!] } },
            { "hash-unreadable", Seen with { Pictures = [Seen.Pictures[0] with { Sha256 = "no" }] } },
            { "number-impossible", Seen with { Shown = 2 } },
            { "count-negative", Seen with { Shown = -1 } },
            { "count-negative", Seen with { Known = -1 } },
            { "count-negative", Seen with { Counts = [Seen.Counts[0] with { Marked = -1 }] } },
            { "number-impossible", Seen with { Counts = [Seen.Counts[0] with { Low = 4 }] } },
            { "number-impossible", Seen with { Counts = [Seen.Counts[0] with { High = double.NaN }] } },
            { "number-impossible", Seen with { Marks = [new(double.PositiveInfinity, 0)] } },
            { "number-impossible", Seen with { Marks = [new(0, double.NaN)] } },
        };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void What_cannot_be_is_no_entry(string code, PicturesSeen pictures) =>
        Assert.Equal(code, (Count with { Pictures = pictures }).Impossible()?.Code);

    [Fact]
    public void A_person_with_the_marks_agrees_with_what_was_left()
    {
        Assert.Equal((2, 1, 2, 1), (Seen.Different(), Seen.OfProgram(), Seen.OfPerson(), Seen.OfBoth()));
        Assert.Null((Seen with { Person = PersonLooked.No }).OfPerson());
    }

    [Fact]
    public void A_person_before_the_marks_agrees_only_where_both_marked()
    {
        var apart = Seen with
        {
            Person = PersonLooked.Before,
            Marks =
            [
                new(1, 1),
                new(2, 2, MarkedBy.Both),
                new(3, 3, MarkedBy.Person),
                new(4, 4, Removed: true),
            ],
        };
        Assert.Equal((3, 2, 2, 1), (apart.Different(), apart.OfProgram(), apart.OfPerson(), apart.OfBoth()));
    }
}
