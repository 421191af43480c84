using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Domain.Readings;

/// <summary>A device held against a standard.</summary>
/// <param name="HoldsFrom">From when the finding holds.</param>
/// <param name="Done">When it was done.</param>
/// <param name="Finding">What was found.</param>
/// <param name="Entry">The entry that says so.</param>
public sealed record Calibration(
    Instant HoldsFrom,
    Happened Done,
    InstrumentCalibrated Finding,
    EntryId Entry
);

/// <summary>One measuring device: its description, and what it was held against. A total view of the journal.</summary>
public sealed class Instrument
{
    private readonly List<Calibration> _calibrations = [];

    private Instrument(InstrumentId id) => Id = id;

    /// <summary>Identity.</summary>
    public InstrumentId Id { get; }

    /// <summary>The newest description; none if it was never described.</summary>
    public InstrumentDescribed? Description { get; private set; }

    /// <summary>Calibrations, by the instant from which they hold.</summary>
    public IReadOnlyList<Calibration> Calibrations => _calibrations;

    /// <summary>The calibration that holds at an instant; none if there is none yet.</summary>
    public Calibration? CalibrationAt(Instant instant) =>
        _calibrations.LastOrDefault(calibration => calibration.HoldsFrom <= instant);

    /// <summary>The view of one device in an account.</summary>
    public static Instrument In(Account account, InstrumentId id)
    {
        var instrument = new Instrument(id);
        foreach (var occurrence in account.About(Subject.Of(id)))
        {
            switch (occurrence.Fact)
            {
                case InstrumentDescribed described:
                    instrument.Description = described;
                    break;
                case InstrumentCalibrated calibrated:
                    var from = calibrated.HoldsFrom ?? occurrence.Happened.Earliest;
                    instrument._calibrations.Add(new(from, occurrence.Happened, calibrated, occurrence.Id));
                    break;
                default:
                    break;
            }
        }

        // Stable, so that of two that hold from one instant the later told one counts.
        var sorted = instrument._calibrations.OrderBy(calibration => calibration.HoldsFrom).ToList();
        instrument._calibrations.Clear();
        instrument._calibrations.AddRange(sorted);
        return instrument;
    }
}
