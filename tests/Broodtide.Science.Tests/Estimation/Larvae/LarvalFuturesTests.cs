using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Science.Tests.Estimation.Larvae;

public sealed class LarvalFuturesTests
{
    private const int Members = 400;

    private static readonly LarvalRun Run = Scenes.Run(
        12,
        new Arrived(0, 0, 0, 300, 0.1),
        new Arrived(1, 1, 1, 100, 0.1),
        Scenes.Aliquots(8, 2, 0.05, 9, 12, 11)
    );

    private static readonly double[] Days = [12, 20, 30];

    private static readonly LarvalEstimate Learned = LarvalEstimator.Of(
        Run,
        new LarvalQuestion { Days = Days, Sets = [1, 2] }
    );

    private static LarvalFuture Go(LarvalRun run, ulong cells = Scenes.Both, double[]? days = null) =>
        LarvalFutures.InPieces(run, Learned, cells, days ?? Days, Members).Last()!;

    // The same until day 12, then so many times the pace of development and of hazard.
    private static LarvalRun Then(double development, double hazard) =>
        Run with
        {
            Courses = [new([0, 12, 212], [0, 12, 12 + (200 * development)], [0, 12, 12 + (200 * hazard)])],
        };

    [Fact]
    public void Members_under_the_same_course_are_the_estimate_over_again()
    {
        var future = Go(Run);
        foreach (var (place, day) in Learned.Days.Index())
        {
            Near(day.All.Alive, MemberQuantiles.Of(future.Alive[place].ToArray()), 0.04, 2);
        }

        Near(Learned.Settlement.Half, MemberQuantiles.Of(future.HalfSettledDays.ToArray()), 0.03, 0.5);
    }

    [Fact]
    public void A_part_of_the_cells_is_followed_by_itself()
    {
        foreach (var (place, cells) in new ulong[] { 1, 2 }.Index())
        {
            var future = Go(Run, cells);
            Near(Learned.Days[0].Sets[place].Alive, MemberQuantiles.Of(future.Alive[0].ToArray()), 0.05, 3);
        }

        // The second cohort came a day younger in age than it was late: settled by its own clock alone.
        Assert.NotEqual(Go(Run, 1).HalfSettledDays[0], Go(Run, 2).HalfSettledDays[0]);
    }

    [Fact]
    public void A_harder_course_costs_every_member_and_a_quicker_one_settles_every_member_sooner()
    {
        var plain = Go(Then(1, 1));
        var hard = Go(Then(1, 3));
        var quick = Go(Then(1.3, 1));
        for (var member = 0; member < Members; member++)
        {
            Assert.Equal(plain.Alive[0][member], hard.Alive[0][member], 9);
            Assert.True(hard.Alive[2][member] < plain.Alive[2][member]);
            Assert.True(quick.HalfSettledDays[member] < plain.HalfSettledDays[member]);
        }
    }

    [Fact]
    public void What_cannot_be_asked_throws()
    {
        Assert.Throws<ArgumentException>(() => Go(Run, cells: 0));
        Assert.Throws<ArgumentException>(() => Go(Run, cells: 8));
        Assert.Throws<ArgumentException>(() => Go(Run, days: [11]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Go(Run, days: [double.NaN]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            LarvalFutures.InPieces(Run, Learned, 1, Days, members: 1)
        );
    }

    private static void Near(Units.Interval told, Units.Interval found, double share, double more)
    {
        Assert.InRange(found.Low, (told.Low * (1 - share)) - more, (told.Low * (1 + share)) + more);
        Assert.InRange(found.Middle, (told.Middle * (1 - share)) - more, (told.Middle * (1 + share)) + more);
        Assert.InRange(found.High, (told.High * (1 - share)) - more, (told.High * (1 + share)) + more);
    }
}
