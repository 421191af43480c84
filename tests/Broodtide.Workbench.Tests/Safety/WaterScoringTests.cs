using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Statistics;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Safety.Scoring;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Tests.Safety;

/// <summary>What was foretold of a water is kept and held against what was read.</summary>
public sealed class WaterScoringTests
{
    private static KeptJournal Jars() =>
        new KeptJournal()
            .Write(
                At(6, 1, 8),
                new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(7, "L"))
            )
            .Write(
                At(6, 1, 9),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(6, "L"),
                    TypedNumber.Of(30, "sal:practical"),
                    TypedNumber.Of(26, "Cel")
                )
            )
            .Write(At(6, 1, 9, 20), new AirChanged(Jar, true));

    private static KeptJournal Read(KeptJournal journal, Instant at, double tan) =>
        journal.Write(at, new ReadingTaken(TypedNumber.Of(tan, "mg/L{TAN-N}"), Jar));

    private static Outlook Seen(KeptJournal journal, Instant now) => Outlook.Of(journal.Account(), now, Zone);

    [Fact]
    public void A_forecast_is_held_against_the_reading_after_it_and_beside_it_that_nothing_changes()
    {
        var journal = Read(Jars(), At(6, 2, 8), 0.4);
        // Straight lines between the hours: 12 hours lie in the middle of 6 and 18.
        journal.Write(
            At(6, 2, 9),
            new WaterForetold(
                Jar,
                "2026-06-02",
                "test",
                At(6, 2, 9),
                At(6, 2, 9),
                [new("tan", 6, "mg/L{TAN-N}", 0.2, 0.4, 0.8), new("tan", 18, "mg/L{TAN-N}", 0.4, 0.6, 1.0)]
            )
        );
        Read(journal, At(6, 2, 21), 0.7);

        var outlook = Seen(journal, At(6, 2, 22));
        var scored = Assert.Single(WaterScoring.Of(outlook.House, outlook.SafetyOf(Jar)!.Run!.Story));

        Assert.Equal(VesselQuantity.Tan, scored.Quantity);
        Assert.Equal(0.5, scored.Foretold.Middle, 1e-9);
        Assert.Equal(
            RankedProbabilityScore.Halves(Interval.FromPoints(0.3, 0.5, 0.9), 0.7),
            scored.Score,
            1e-9
        );
        Assert.Equal(0.3, scored.PlainScore!.Value, 1e-9);
        var score = Assert.Single(WaterScoring.ByQuantity([scored]));
        Assert.Equal((1, 1), (score.Number, score.Inside));
    }

    [Fact]
    public void What_was_read_before_a_forecast_is_no_test_of_it()
    {
        var journal = Read(Jars(), At(6, 2, 8), 0.4)
            .Write(
                At(6, 3, 9),
                new WaterForetold(
                    Jar,
                    "2026-06-03",
                    "test",
                    At(6, 3, 9),
                    At(6, 3, 9),
                    [new("tan", 6, "mg/L{TAN-N}", 0.2, 0.4, 0.8)]
                )
            );
        // After the last hour nothing was said.
        Read(journal, At(6, 3, 20), 0.5);

        var outlook = Seen(journal, At(6, 4, 9));
        Assert.Empty(WaterScoring.Of(outlook.House, outlook.SafetyOf(Jar)!.Run!.Story));
    }

    [Fact]
    public void A_day_is_foretold_once_and_only_what_is_measured()
    {
        var journal = Read(Jars(), At(6, 2, 8), 0.4);
        var outlook = Seen(journal, At(6, 3, 9));
        Assert.Empty(Foretelling.UnwrittenOfWater(outlook, "test"));
        _ = outlook.SafetyOf(Jar);

        var foretold = Assert.Single(Foretelling.UnwrittenOfWater(outlook, "test"));

        Assert.All(foretold.Points, point => Assert.Equal("tan", point.Quantity));
        Assert.Equal([6, 12, 18, 24, 30, 36, 42, 48], foretold.Points.Select(point => point.Hours));
        Assert.All(
            foretold.Points,
            point => Assert.True(point.Low <= point.Middle && point.Middle <= point.High)
        );
        journal.Write(At(6, 3, 9), foretold);
        var later = Seen(journal, At(6, 3, 18));
        _ = later.SafetyOf(Jar);
        Assert.Empty(Foretelling.UnwrittenOfWater(later, "test"));
    }
}
