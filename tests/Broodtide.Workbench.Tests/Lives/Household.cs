using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Due;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Lives;

/// <summary>A kitchen in June: a tank with a few adults, a jar of eight litres with larvae, a small one with fewer.</summary>
internal static class Household
{
    public static VesselId SmallJar => new(Fixed(50));

    public static CohortId Cohort2 => new(Fixed(51));

    /// <summary>The household until the evening of a day of June; the first larvae crossed on the second.</summary>
    /// <param name="lastDay">Last day of which the daily round is written.</param>
    /// <param name="yeastMilligrams">Yeast a day in the large jar, mg.</param>
    /// <param name="smallMilligrams">Yeast a day in the small one, mg.</param>
    public static KeptJournal Until(int lastDay, double yeastMilligrams = 6, double smallMilligrams = 6)
    {
        var kept = WithBrood()
            .Write(
                At(5, 3, 9),
                new VesselFilled(
                    Tank,
                    new FillId(Fixed(52)),
                    TypedNumber.Of(40, "L"),
                    Temperature: TypedNumber.Of(25.5, "Cel")
                )
            )
            .Write(At(5, 3, 9), new AirChanged(Tank, true))
            .Write(At(5, 29, 23), new HatchingSeen(Brood1));
        Jarful(kept, Jar, "Jar A", 8, Fill1);
        Jarful(kept, SmallJar, "Cup jar", 1.5, new FillId(Fixed(53)));
        kept.Write(
                At(6, 2, 8),
                new CrossingMade(Cohort1, Brood1, Jar, Number: 200, Method: CountMethod.Glance)
            )
            .Write(
                At(6, 2, 9),
                new CrossingMade(Cohort2, Brood1, SmallJar, Number: 40, Method: CountMethod.Glance)
            );
        for (var day = 3; day <= lastDay; day++)
        {
            kept.Write(At(6, day, 8), new ReadingTaken(TypedNumber.Of(30, "sal:practical"), Jar))
                .Write(At(6, day, 8, 1), new ReadingTaken(TypedNumber.Of(30, "sal:practical"), SmallJar))
                .Write(At(6, day, 20), Yeast(Jar, yeastMilligrams))
                .Write(At(6, day, 20, 1), Yeast(SmallJar, smallMilligrams));
        }

        return kept;
    }

    /// <summary>Temperatures of the room and both jars at an hour.</summary>
    public static KeptJournal Warm(
        this KeptJournal kept,
        Instant at,
        double room,
        double jar,
        double small
    ) =>
        kept.Write(at, new ReadingTaken(TypedNumber.Of(room, "Cel")))
            .Write(at + Duration.FromMinutes(1), new ReadingTaken(TypedNumber.Of(jar, "Cel"), Jar))
            .Write(at + Duration.FromMinutes(2), new ReadingTaken(TypedNumber.Of(small, "Cel"), SmallJar));

    public static Outlook Seen(this KeptJournal kept, Instant now) => Outlook.Of(kept.Account(), now, Zone);

    /// <summary>The due list as a keeper reads it.</summary>
    public static DueList Due(this KeptJournal kept, Instant now) => kept.Seen(now).Due;

    public static VesselFed Yeast(VesselId vessel, double milligrams) =>
        new(vessel, FoodKind.Yeast, Mass: TypedNumber.Of(milligrams, "mg"));

    private static void Jarful(KeptJournal kept, VesselId jar, string name, double litres, FillId fill) =>
        kept.Write(
                At(6, 1, 8),
                new VesselSetUp(jar, name, VesselRole.LarvalVessel, TypedNumber.Of(litres, "L"))
            )
            .Write(
                At(6, 1, 9),
                new VesselFilled(
                    jar,
                    fill,
                    TypedNumber.Of(litres, "L"),
                    TypedNumber.Of(30, "sal:practical"),
                    TypedNumber.Of(26, "Cel")
                )
            )
            .Write(At(6, 1, 10), new AirChanged(jar, true))
            .Write(At(6, 1, 10), new LightChanged(jar, true, 14, TypedNumber.Of(80, "umol/m2/s")));
}
