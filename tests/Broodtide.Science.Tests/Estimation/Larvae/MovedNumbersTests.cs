using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Science.Tests.Estimation.Larvae;

public sealed class MovedNumbersTests
{
    private static LarvalRun Run(params LarvalEvent[] events) =>
        Scenes.Run(10, [new Arrived(0, 0, 0, 200, 0.04), .. events]) with
        {
            Cells = [new LarvalCell(0, 0), new LarvalCell(1, 0)],
            Courses = [VesselCourse.Plain, VesselCourse.Plain],
        };

    [Theory]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(80)]
    public void That_a_number_moved_says_so_many_were_there_and_no_more(int number)
    {
        var moved = Scenes.At(Run(new Moved(5, 1, 0, 1, number)), 4.9).Days[0].All.Alive;
        var seen = Scenes.At(Run(new Counted(5, 1, 1, new AtLeastEvidence(number))), 4.9).Days[0].All.Alive;

        Assert.Equal(seen.Low, moved.Low, 0.15 * seen.Width);
        Assert.Equal(seen.Middle, moved.Middle, 0.1 * seen.Width);
        Assert.Equal(seen.High, moved.High, 0.1 * seen.Width);
    }
}
