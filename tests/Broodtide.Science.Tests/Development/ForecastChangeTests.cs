using Broodtide.Science.Development;
using static Broodtide.Science.Tests.Development.Broods;

namespace Broodtide.Science.Tests.Development;

public sealed class ForecastChangeTests
{
    [Fact]
    public void Pale_eggs_are_named_as_the_largest_reason()
    {
        var earlier = Spawned(NotEyed(9), Eyed(13)).At(24.5, -1, 20);
        var later = Spawned(NotEyed(9), Eyed(13), Pale(21)).At(24.5, -1, 21);
        var change = ForecastChange.Between(Prior, earlier, later);

        Assert.Equal(ChangeCode.Pale, change.Reasons[0].Code);
        Assert.Equal(21, change.Reasons[0].Day);
        Assert.True(change.MedianShiftDays < -1, $"{change.MedianShiftDays}");
        Assert.True(change.NarrowedDays > 1, $"{change.NarrowedDays}");
    }

    [Fact]
    public void A_cold_week_is_named_when_nothing_was_seen()
    {
        var earlier = Spawned().At(25.5, -1, 8);
        var later = earlier with
        {
            Temperatures = [.. earlier.Temperatures, .. Spawned().At(20, 9, 15).Temperatures],
        };
        var change = ForecastChange.Between(Prior, earlier, later);

        Assert.Equal(ChangeCode.Temperatures, Assert.Single(change.Reasons).Code);
        Assert.True(change.MedianShiftDays > 1, $"{change.MedianShiftDays}");
    }

    [Fact]
    public void Nothing_new_gives_no_reason_and_no_shift()
    {
        var evidence = Spawned(Eyed(13)).At(24.5, -1, 17);
        var change = ForecastChange.Between(Prior, evidence, evidence);

        Assert.Empty(change.Reasons);
        Assert.Equal(0, change.MedianShiftDays);
    }

    [Fact]
    public void A_fact_taken_back_is_named()
    {
        var change = ForecastChange.Between(
            Prior,
            Spawned(Pale(16)).At(25, -1, 16),
            Spawned().At(25, -1, 16)
        );

        Assert.Equal(ChangeCode.Withdrawn, change.Reasons[0].Code);
        Assert.True(change.Reasons[0].ShiftDays > 0);
    }
}
