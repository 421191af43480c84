using Broodtide.Workbench.TideLine;
using static Broodtide.Phone.Tests.Pictures.RunBuilder;

namespace Broodtide.Phone.Tests.Pictures;

public sealed class TideTrackTests
{
    [Fact]
    public void A_track_is_straight_between_rows_flat_outside_and_steps_where_two_share_an_instant()
    {
        List<TideRow> rows = [Row(0, 1, 2, 3), Row(2, 3, 4, 5), Row(2, 9, 10, 11), Row(4, 9, 10, 11)];
        Assert.Equal(2, TideTrack.At(rows, Day(-1))!.Value.Middle);
        Assert.Equal(3, TideTrack.At(rows, Day(1))!.Value.Middle, 1e-9);
        Assert.Equal(10, TideTrack.At(rows, Day(2))!.Value.Middle);
        Assert.Equal(10, TideTrack.At(rows, Day(9))!.Value.Middle);
        Assert.Null(TideTrack.At([], Day(0)));
    }

    [Fact]
    public void The_mean_over_a_span_is_the_area_under_the_medians()
    {
        List<TideRow> rows = [Row(0, 0, 0, 0), Row(2, 4, 4, 4), Row(2, 10, 10, 10), Row(4, 10, 10, 10)];
        Assert.Equal(((2.0 * 4 / 2) + (2 * 10)) / 4, TideTrack.MeanMedian(rows, Day(0), Day(4)), 1e-9);
        Assert.Equal(2, TideTrack.MeanMedian(rows, Day(0), Day(2)), 1e-9);
        Assert.Equal(0, TideTrack.MeanMedian(rows, Day(-4), Day(-1)), 1e-9);
        Assert.Equal(10, TideTrack.MeanMedian(rows, Day(6), Day(8)), 1e-9);
        Assert.Equal(10, TideTrack.MeanMedian(rows, Day(3), Day(3)), 1e-9);
    }

    [Fact]
    public void The_vessel_with_most_larvae_alive_carries_the_picture()
    {
        Assert.Equal("Jar A", TideFleet.Main(RunCases.TwoVessels(25))!.Name);
        Assert.Null(TideFleet.Main(RunCases.BerriedYesterday()));
    }
}
