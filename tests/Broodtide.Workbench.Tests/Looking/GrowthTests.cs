using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.Tests.Population;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Looking;

public sealed class GrowthTests
{
    [Fact]
    public void Looks_of_a_run_are_told_by_the_days_since_their_crossing()
    {
        var told = Of(
            LarvalStory
                .Of200()
                .Tell(2, Measured(1600, 1640))
                .Tell(10, Measured(2000, 2040))
                .Tell(18, Measured(2400, 2440))
        );
        Assert.Equal([2, 10, 18], told.Looks.Select(look => Math.Round(look.AgeDays!.Value, 3)));
        Assert.Equal(50, told.Growth.Value.MicrometresPerDay.Middle, 1e-6);
        Assert.Equal(1620, told.Looks[0].Mean!.Value.Middle, 1e-9);
        Assert.Empty(told.Remarks);
    }

    [Fact]
    public void Larvae_of_crossings_far_apart_have_no_one_age_unless_the_cohort_is_named()
    {
        var story = LarvalStory
            .Of200()
            .Tell(6, LarvalStory.Into(LarvalStory.Second, LarvalStory.JarA, 50))
            .Tell(10, Measured(2000, 1500))
            .Tell(10, Measured(1500) with { Cohort = LarvalStory.Second });
        var told = Of(story);
        Assert.Equal(
            [null, 4.0],
            told.Looks.Select(look => look.AgeDays is { } age ? Math.Round(age, 3) : (double?)null)
        );
        Assert.Equal("lengths-without-age", Assert.Single(told.Remarks).Code);
        Assert.Equal("growth-needs-looks", told.Growth.Reason!.Code);
    }

    [Fact]
    public void What_was_measured_elsewhere_is_of_another_run()
    {
        var told = Of(
            LarvalStory
                .Of200()
                .Tell(3, new LarvaeMeasured(LarvalStory.JarB, [new(1700)]))
                .Tell(4, new LarvaeMeasured(LarvalStory.JarA, BeatsPerMinute: [new(180)]))
        );
        Assert.Empty(told.Looks);
    }

    private static LarvaeMeasured Measured(params double[] micrometres) =>
        new(LarvalStory.JarA, [.. micrometres.Select(length => new MeasuredValue(length))]);

    private static RunLengths Of(LarvalStory story) =>
        Growth.Of(new House(Domain.Journal.Account.Of(story.Entries)), Run1);
}
