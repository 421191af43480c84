using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>The latest hardness that was read of a vessel's water, as calcium carbonate.</summary>
public static class HardnessRead
{
    /// <summary>mg/L of calcium carbonate; none where nobody read it.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="until">Readings after this are passed over.</param>
    public static double? Of(House house, VesselId vessel, Instant until) =>
        house
            .Told<ReadingTaken>(Subject.Of(vessel))
            .Where(told => told.Happened.Latest <= until)
            .Select(told => (ReadingTaken)told.Fact)
            .Where(reading => reading.Value.KnownUnit()?.Dimension is Dimension.Hardness)
            .Select(reading => (double?)(reading.Value.Value * HardnessText.MilligramsPerGermanDegree))
            .LastOrDefault();
}
