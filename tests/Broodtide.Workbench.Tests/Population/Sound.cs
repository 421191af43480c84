using Broodtide.Units;
using Broodtide.Workbench.Population;

namespace Broodtide.Workbench.Tests.Population;

/// <summary>What every estimate is, whatever was written: finite, in order, whole where larvae are told.</summary>
internal static class Sound
{
    public static void Check(PopulationEstimate estimate)
    {
        foreach (
            var larvae in estimate
                .Track.Append(estimate.All)
                .Concat(estimate.Vessels.SelectMany(part => part.Track.Append(part.Now)))
                .Concat(estimate.Cohorts.SelectMany(part => part.Track.Append(part.Now)))
                .Concat(estimate.Asked.Select(moment => moment.All))
        )
        {
            Whole(larvae.Alive);
            Assert.All(larvae.StageShares, share => Assert.InRange(share, 0, 1 + 1e-9));
            var sum = larvae.StageShares.Sum();
            Assert.True(Math.Abs(sum - 1) < 1e-6 || sum == 0, $"stage shares sum to {sum}");
        }

        Assert.All(estimate.Stages, stage => Whole(stage.Number));
        Whole(estimate.Juveniles);
        Ordered(estimate.SurvivedShare);
        Assert.InRange(estimate.SurvivedShare.Low, 0, 1);
        Assert.InRange(estimate.SurvivedShare.High, 0, 1);
        foreach (
            var days in new[]
            {
                estimate.Settlement.First,
                estimate.Settlement.Tenth,
                estimate.Settlement.Half,
                estimate.Settlement.NineTenths,
            }
        )
        {
            Assert.True(days.Early <= days.Middle && days.Middle <= days.Late, $"{days}");
        }

        Assert.All(
            estimate.WhatHelps,
            help =>
            {
                Assert.InRange(help.AliveNarrowedShare, 0, 1);
                Assert.InRange(help.SettlementNarrowedShare, 0, 1);
            }
        );
    }

    private static void Whole(Interval larvae)
    {
        Ordered(larvae);
        Assert.True(larvae.Low >= 0, $"{larvae}");
        Assert.Equal(Math.Round(larvae.Low), larvae.Low);
        Assert.Equal(Math.Round(larvae.Middle), larvae.Middle);
        Assert.Equal(Math.Round(larvae.High), larvae.High);
    }

    private static void Ordered(Interval points)
    {
        Assert.True(double.IsFinite(points.Low) && double.IsFinite(points.High), $"{points}");
        Assert.True(points.Low <= points.Middle && points.Middle <= points.High, $"{points}");
    }
}
