using System.Collections.Frozen;

namespace Broodtide.Domain.Journal;

/// <summary>
/// The stored names of facts, given by hand and never changed, with the versions this build can read. A new shape
/// is a new version; older ones are lifted on reading, for ever.
/// </summary>
public static class Kinds
{
    private static readonly Kind[] List =
    [
        new Kind<Animals.AnimalAcquired>("animal acquired", FactJson.Default.AnimalAcquired),
        new Kind<Animals.AnimalMoulted>("animal moulted", FactJson.Default.AnimalMoulted),
        new Kind<Animals.AnimalMoved>("animal moved", FactJson.Default.AnimalMoved),
        new Kind<Animals.AnimalDied>("animal died", FactJson.Default.AnimalDied),
        new Kind<Broods.AnimalSeenEmpty>("animal seen empty", FactJson.Default.AnimalSeenEmpty),
        new Kind<Broods.AnimalSeenBerried>("animal seen berried", FactJson.Default.AnimalSeenBerried),
        new Kind<Broods.EggsObserved>("eggs observed", FactJson.Default.EggsObserved),
        new Kind<Broods.EggsDropped>("eggs dropped", FactJson.Default.EggsDropped),
        new Kind<Broods.AnimalIsolated>("animal isolated", FactJson.Default.AnimalIsolated),
        new Kind<Broods.AnimalReturned>("animal returned", FactJson.Default.AnimalReturned),
        new Kind<Larvae.HatchingSeen>("hatching seen", FactJson.Default.HatchingSeen),
        new Kind<Larvae.CollectionMade>("collection made", FactJson.Default.CollectionMade),
        new Kind<Larvae.CrossingMade>("crossing made", FactJson.Default.CrossingMade),
        new Kind<Larvae.CountMade>("count made", FactJson.Default.CountMade),
        new Kind<Larvae.DeadRemoved>("dead removed", FactJson.Default.DeadRemoved),
        new Kind<Larvae.StageSampleTaken>("stage sample taken", FactJson.Default.StageSampleTaken),
        new Kind<Larvae.CohortsMoved>("cohorts moved", FactJson.Default.CohortsMoved),
        new Kind<Larvae.CohortsMerged>("cohorts merged", FactJson.Default.CohortsMerged),
        new Kind<Larvae.CohortSplit>("cohort split", FactJson.Default.CohortSplit),
        new Kind<Larvae.SettlementSeen>("settlement seen", FactJson.Default.SettlementSeen),
        new Kind<Larvae.JuvenilesReturned>("juveniles returned", FactJson.Default.JuvenilesReturned),
        new Kind<Larvae.JuvenilesCounted>("juveniles counted", FactJson.Default.JuvenilesCounted),
        new Kind<Larvae.JuvenilesGivenAway>("juveniles given away", FactJson.Default.JuvenilesGivenAway),
        new Kind<Readings.ReadingTaken>("reading taken", FactJson.Default.ReadingTaken),
        new Kind<Readings.InstrumentDescribed>("instrument described", FactJson.Default.InstrumentDescribed),
        new Kind<Readings.InstrumentCalibrated>(
            "instrument calibrated",
            FactJson.Default.InstrumentCalibrated
        ),
        new Kind<Vessels.VesselSetUp>("vessel set up", FactJson.Default.VesselSetUp),
        new Kind<Vessels.VesselFilled>("vessel filled", FactJson.Default.VesselFilled),
        new Kind<Vessels.VesselEmptied>("vessel emptied", FactJson.Default.VesselEmptied),
        new Kind<Vessels.VesselDisinfected>("vessel disinfected", FactJson.Default.VesselDisinfected),
        new Kind<Vessels.WaterMoved>("water moved", FactJson.Default.WaterMoved),
        new Kind<Vessels.VesselSiphoned>("vessel siphoned", FactJson.Default.VesselSiphoned),
        new Kind<Vessels.VesselFed>("vessel fed", FactJson.Default.VesselFed),
        new Kind<Vessels.LightChanged>("light changed", FactJson.Default.LightChanged),
        new Kind<Vessels.AirChanged>("air changed", FactJson.Default.AirChanged),
        new Kind<Vessels.HeaterChanged>("heater changed", FactJson.Default.HeaterChanged),
        new Kind<Vessels.FilterChanged>("filter changed", FactJson.Default.FilterChanged),
        new Kind<Keeping.RunStarted>("run started", FactJson.Default.RunStarted),
        new Kind<Keeping.RunEnded>("run ended", FactJson.Default.RunEnded),
        new Kind<Keeping.PowerFailed>("power failed", FactJson.Default.PowerFailed),
        new Kind<Keeping.PowerRestored>("power restored", FactJson.Default.PowerRestored),
        new Kind<Keeping.KeeperLeft>("keeper left", FactJson.Default.KeeperLeft),
        new Kind<Keeping.KeeperReturned>("keeper returned", FactJson.Default.KeeperReturned),
        new Kind<Keeping.ActionDone>("action done", FactJson.Default.ActionDone),
        new Kind<Keeping.ActionSkipped>("action skipped", FactJson.Default.ActionSkipped),
        new Kind<Keeping.NoteWritten>("note written", FactJson.Default.NoteWritten),
        new Kind<Keeping.PhotoAdded>("photo added", FactJson.Default.PhotoAdded),
        new Kind<Keeping.ForecastIssued>("forecast issued", FactJson.Default.ForecastIssued),
        new Kind<Keeping.ProfileValueChosen>("profile value chosen", FactJson.Default.ProfileValueChosen),
        new Kind<Keeping.EntryTakenBack>("entry taken back", FactJson.Default.EntryTakenBack),
    ];

    private static readonly FrozenDictionary<string, Kind> ByName = List.ToFrozenDictionary(
        kind => kind.Name,
        StringComparer.Ordinal
    );

    private static readonly FrozenDictionary<Type, Kind> ByType = List.ToFrozenDictionary(kind => kind.Type);

    /// <summary>Every kind that this build knows.</summary>
    public static IReadOnlyList<Kind> All => List;

    /// <summary>The kind of a stored name, or none.</summary>
    public static Kind? Find(string name) => ByName.GetValueOrDefault(name);

    /// <summary>The kind of a fact.</summary>
    /// <exception cref="ArgumentException">The fact is one that stands for missing or unknown facts.</exception>
    public static Kind Of(Fact fact) =>
        ByType.GetValueOrDefault(fact.GetType())
        ?? throw new ArgumentException($"{fact.GetType().Name} is not written to a journal.", nameof(fact));

    /// <summary>
    /// The fact in a body. Total: a kind or version unknown here gives <see cref="UnknownFact"/>, bytes that do
    /// not hold what the kind demands give <see cref="UnreadableFact"/>.
    /// </summary>
    public static Fact Read(string name, int version, ReadOnlySpan<byte> body) =>
        Find(name) is { } kind && version <= kind.Version
            ? kind.Read(version, body)
            : new UnknownFact(name, version);

    /// <summary>Whether this build can read a kind in that version.</summary>
    public static bool Knows(string name, int version) => Find(name) is { } kind && version <= kind.Version;
}
