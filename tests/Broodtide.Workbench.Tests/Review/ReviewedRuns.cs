using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Review;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Review;

/// <summary>Invented runs for reviews: larvae gathered and crossed on 28 May.</summary>
internal static class ReviewedRuns
{
    public static Instant Crossed { get; } = At(5, 28, 8);

    /// <summary>Crossed, with nothing else written.</summary>
    public static KeptJournal Bare(
        int? gathered = 200,
        int? crossed = 200,
        CountMethod counted = CountMethod.Beam
    ) =>
        WithBrood()
            .Write(At(5, 2, 9), new RunStarted(Run1, Brood1, "Brood 1", "Caridina multidentata"))
            .Write(At(5, 20), new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(22, "L")))
            .Write(
                At(5, 20),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(20, "L"),
                    TypedNumber.Of(30, UnitCode.PracticalSalinity)
                )
            )
            .Write(At(5, 28, 1), new HatchingSeen(Brood1, Tank))
            .Write(
                At(5, 28, 1),
                new CollectionMade(Collection1, Brood1, Tank, null, gathered, CountMethod.Beam)
            )
            .Write(
                Crossed,
                new CrossingMade(
                    Cohort1,
                    Brood1,
                    Jar,
                    [Collection1],
                    crossed,
                    counted,
                    BrackishMinutes: TypedNumber.Of(4, "min")
                )
            );

    /// <summary>Each day of some: water read and found good, and fed.</summary>
    public static KeptJournal Cared(
        this KeptJournal kept,
        int days,
        double ppt = 30,
        double celsius = 24,
        double ammonia = 0.05
    )
    {
        for (var day = 0; day < days; day++)
        {
            var at = Crossed + Duration.FromHours(6 + (24 * day));
            kept.Write(at, new ReadingTaken(TypedNumber.Of(ppt, UnitCode.PracticalSalinity), Jar))
                .Write(at, new ReadingTaken(TypedNumber.Of(celsius, "Cel"), Jar))
                .Write(at, new ReadingTaken(TypedNumber.Of(ammonia, "mg/L{TAN-N}"), Jar))
                .Write(at, new ReadingTaken(TypedNumber.Of(0.02, "mg/L{NO2-N}"), Jar))
                .Write(at, new VesselFed(Jar, FoodKind.GreenWater, TypedNumber.Of(50, "mL")));
        }

        return kept;
    }

    /// <summary>Ten litres of the twenty looked through, a litre at a time, so many days after the crossing.</summary>
    public static KeptJournal Counted(this KeptJournal kept, int day, int seenInALitre) =>
        kept.Write(
            Crossed + Duration.FromHours((24 * day) + 10),
            new CountMade(
                Jar,
                CountMethod.Aliquot,
                [.. Enumerable.Repeat(new Aliquot(seenInALitre, TypedNumber.Of(1, "L")), 10)],
                Cohort1
            )
        );

    public static KeptJournal Ended(this KeptJournal kept, int day, RunEnd end = RunEnd.GivenUp) =>
        kept.Write(Crossed + Duration.FromHours((24 * day) + 14), new RunEnded(Run1, end, "none seen"));

    public static RunReview Told(this KeptJournal kept, Instant now) =>
        Outlook.Of(kept.Account(), now, Zone).ReviewOf(Run1)!;

    public static PhaseLoss Phase(this RunReview review, LossPhase phase) =>
        review.Phases.Single(told => told.Phase == phase);

    public static CauseFinding Cause(this RunReview review, LossCause cause) =>
        review.Causes.Single(told => told.Cause == cause);
}
