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
)
{
    /// <summary>
    /// How much wider a number is taken that was asked back as improbable and confirmed as typed. Our choice, no
    /// source: a slip that was not owned up to is likelier there than elsewhere.
    /// </summary>
    public const double DoubtedSdFactor = 2;

    /// <summary>What a typed salinity means, wider if it was doubted.</summary>
    public SalinityRead? Of(TypedNumber typed, Temperature? temperature) =>
        Widened(Typed(typed, temperature), typed.Doubted);

    /// <summary>What a reading means, wider if its value or its sample's temperature was doubted.</summary>
    public SalinityRead? Of(ReadingTaken reading, Instant when) =>
        Widened(
            Reading(reading, when),
            reading.Value.Doubted || reading.SampleTemperature is { Doubted: true }
        );

    private static SalinityRead? Widened(SalinityRead? read, bool doubted) =>
        read is { } seen && doubted ? seen with { Sd = DoubtedSdFactor * seen.Sd } : read;
}
