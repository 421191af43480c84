using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests;

/// <summary>Vessels set up and filled on the third of May, in a line.</summary>
internal static class KeptVessels
{
    public static KeptJournal SetUp(
        this KeptJournal kept,
        VesselId vessel,
        VesselRole role,
        string? species = null
    ) => kept.Write(At(5, 3, 8), new VesselSetUp(vessel, $"{role}", role, Species: species));

    public static KeptJournal Filled(
        this KeptJournal kept,
        VesselId vessel,
        double litres,
        double ppt = 0,
        double celsius = 25
    ) =>
        kept.Write(
                At(5, 3, 9),
                new VesselFilled(
                    vessel,
                    new FillId(vessel.Value),
                    TypedNumber.Of(litres, "L"),
                    TypedNumber.Of(ppt, UnitCode.PracticalSalinity),
                    TypedNumber.Of(celsius, "Cel")
                )
            )
            .Write(At(5, 3, 9), new AirChanged(vessel, true));

    /// <summary>A reading of warmth.</summary>
    public static KeptJournal Warmth(this KeptJournal kept, Instant at, VesselId vessel, double celsius) =>
        kept.Write(at, new ReadingTaken(TypedNumber.Of(celsius, "Cel"), vessel));
}
