using System.Collections.Frozen;
using System.Text;

namespace Broodtide.Domain.Journal;

/// <summary>
/// The stored names of facts, given by hand and never changed, with the versions this build can read. A new shape
/// is a new version; older ones are lifted on reading, for ever.
/// </summary>
public static class Kinds
{
    private static readonly Kind[] List =
    [
        new Kind<Animals.AnimalAcquired>("animal acquired", static () => FactJson.Default.AnimalAcquired),
        new Kind<Animals.AnimalMoulted>("animal moulted", static () => FactJson.Default.AnimalMoulted),
        new Kind<Animals.AnimalMoved>("animal moved", static () => FactJson.Default.AnimalMoved),
        new Kind<Animals.AnimalDied>("animal died", static () => FactJson.Default.AnimalDied),
        new Kind<Broods.AnimalSeenEmpty>("animal seen empty", static () => FactJson.Default.AnimalSeenEmpty),
        new Kind<Broods.AnimalSeenBerried>(
            "animal seen berried",
            static () => FactJson.Default.AnimalSeenBerried
        ),
        new Kind<Broods.EggsObserved>("eggs observed", static () => FactJson.Default.EggsObserved),
        new Kind<Broods.EggsDropped>("eggs dropped", static () => FactJson.Default.EggsDropped),
        new Kind<Broods.AnimalIsolated>("animal isolated", static () => FactJson.Default.AnimalIsolated),
        new Kind<Broods.AnimalReturned>("animal returned", static () => FactJson.Default.AnimalReturned),
        new Kind<Larvae.HatchingSeen>("hatching seen", static () => FactJson.Default.HatchingSeen),
        new Kind<Larvae.CollectionMade>("collection made", static () => FactJson.Default.CollectionMade),
        new Kind<Larvae.CrossingMade>("crossing made", static () => FactJson.Default.CrossingMade),
        new Kind<Larvae.CountMade>("count made", static () => FactJson.Default.CountMade, MaySayMore),
        new Kind<Larvae.DeadRemoved>("dead removed", static () => FactJson.Default.DeadRemoved),
        new Kind<Larvae.StageSampleTaken>(
            "stage sample taken",
            static () => FactJson.Default.StageSampleTaken
        ),
        new Kind<Larvae.CohortsMoved>("cohorts moved", static () => FactJson.Default.CohortsMoved),
        new Kind<Larvae.CohortsMerged>("cohorts merged", static () => FactJson.Default.CohortsMerged),
        new Kind<Larvae.CohortSplit>("cohort split", static () => FactJson.Default.CohortSplit),
        new Kind<Larvae.SettlementSeen>("settlement seen", static () => FactJson.Default.SettlementSeen),
        new Kind<Larvae.JuvenilesReturned>(
            "juveniles returned",
            static () => FactJson.Default.JuvenilesReturned
        ),
        new Kind<Larvae.JuvenilesCounted>(
            "juveniles counted",
            static () => FactJson.Default.JuvenilesCounted
        ),
        new Kind<Larvae.JuvenilesGivenAway>(
            "juveniles given away",
            static () => FactJson.Default.JuvenilesGivenAway
        ),
        new Kind<Larvae.LarvaeMeasured>("larvae measured", static () => FactJson.Default.LarvaeMeasured),
        new Kind<Larvae.SurvivalHeard>("survival heard", static () => FactJson.Default.SurvivalHeard),
        new Kind<Readings.ReadingTaken>(
            "reading taken",
            static () => FactJson.Default.ReadingTaken,
            MaySayMore
        ),
        new Kind<Readings.InstrumentDescribed>(
            "instrument described",
            static () => FactJson.Default.InstrumentDescribed,
            MaySayMore
        ),
        new Kind<Readings.InstrumentCalibrated>(
            "instrument calibrated",
            static () => FactJson.Default.InstrumentCalibrated,
            MaySayMore
        ),
        new Kind<Vessels.VesselSetUp>("vessel set up", static () => FactJson.Default.VesselSetUp),
        new Kind<Vessels.VesselFilled>("vessel filled", static () => FactJson.Default.VesselFilled),
        new Kind<Vessels.VesselEmptied>("vessel emptied", static () => FactJson.Default.VesselEmptied),
        new Kind<Vessels.VesselDisinfected>(
            "vessel disinfected",
            static () => FactJson.Default.VesselDisinfected
        ),
        new Kind<Vessels.WaterMoved>("water moved", static () => FactJson.Default.WaterMoved),
        new Kind<Vessels.VesselSiphoned>("vessel siphoned", static () => FactJson.Default.VesselSiphoned),
        new Kind<Vessels.VesselFed>("vessel fed", static () => FactJson.Default.VesselFed, MaySayMore),
        new Kind<Vessels.LightChanged>(
            "light changed",
            static () => FactJson.Default.LightChanged,
            MaySayMore
        ),
        new Kind<Vessels.FeedDescribed>("feed described", static () => FactJson.Default.FeedDescribed),
        new Kind<Vessels.CultureDescribed>(
            "culture described",
            static () => FactJson.Default.CultureDescribed
        ),
        new Kind<Vessels.CultureHarvested>(
            "culture harvested",
            static () => FactJson.Default.CultureHarvested
        ),
        new Kind<Vessels.VesselLookedAt>("vessel looked at", static () => FactJson.Default.VesselLookedAt),
        new Kind<Readings.CellsCounted>("cells counted", static () => FactJson.Default.CellsCounted),
        new Kind<Vessels.AirChanged>("air changed", static () => FactJson.Default.AirChanged),
        new Kind<Vessels.HeaterChanged>("heater changed", static () => FactJson.Default.HeaterChanged),
        new Kind<Vessels.FilterChanged>("filter changed", static () => FactJson.Default.FilterChanged),
        new Kind<Keeping.RunStarted>("run started", static () => FactJson.Default.RunStarted),
        new Kind<Keeping.RunEnded>("run ended", static () => FactJson.Default.RunEnded),
        new Kind<Keeping.TrialLaidOut>("trial laid out", static () => FactJson.Default.TrialLaidOut),
        new Kind<Keeping.PowerFailed>("power failed", static () => FactJson.Default.PowerFailed),
        new Kind<Keeping.PowerRestored>("power restored", static () => FactJson.Default.PowerRestored),
        new Kind<Keeping.KeeperLeft>("keeper left", static () => FactJson.Default.KeeperLeft),
        new Kind<Keeping.KeeperReturned>("keeper returned", static () => FactJson.Default.KeeperReturned),
        new Kind<Keeping.ActionDone>("action done", static () => FactJson.Default.ActionDone),
        new Kind<Keeping.ActionSkipped>("action skipped", static () => FactJson.Default.ActionSkipped),
        new Kind<Keeping.NoteWritten>("note written", static () => FactJson.Default.NoteWritten),
        new Kind<Keeping.PhotoAdded>("photo added", static () => FactJson.Default.PhotoAdded, MaySayMore),
        new Kind<Keeping.ForecastIssued>("forecast issued", static () => FactJson.Default.ForecastIssued),
        new Kind<Vessels.WaterForetold>("water foretold", static () => FactJson.Default.WaterForetold),
        new Kind<Keeping.ProfileValueChosen>(
            "profile value chosen",
            static () => FactJson.Default.ProfileValueChosen
        ),
        new Kind<Keeping.EntryTakenBack>("entry taken back", static () => FactJson.Default.EntryTakenBack),
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

    // A version that may say more and says nothing otherwise.
    private static byte[] MaySayMore(System.Text.Json.JsonElement body) =>
        Encoding.UTF8.GetBytes(body.GetRawText());
}
