using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>A salinity with its doubt, as the ledger takes it in.</summary>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="Sd">Standard deviation; above zero.</param>
public readonly record struct SalinityRead(Salinity Salinity, double Sd);

/// <summary>
/// What numbers in the journal mean as salinity. Each answers none where a formula gives no number: then the entry
/// stays in the journal and out of the ledger.
/// </summary>
/// <param name="Typed">A salinity that was typed on some scale, with the water's temperature if it is known.</param>
/// <param name="Reading">A reading, through its instrument and the calibration that held then.</param>
public sealed record WaterMeaning(
    Func<TypedNumber, Temperature?, SalinityRead?> Typed,
    Func<ReadingTaken, Instant, SalinityRead?> Reading
);
