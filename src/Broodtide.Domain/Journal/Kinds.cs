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
        new Kind<Animals.AnimalAcquired>("animal acquired"),
        new Kind<Animals.AnimalMoulted>("animal moulted"),
        new Kind<Animals.AnimalMoved>("animal moved"),
        new Kind<Animals.AnimalDied>("animal died"),
        new Kind<Broods.AnimalSeenEmpty>("animal seen empty"),
        new Kind<Broods.AnimalSeenBerried>("animal seen berried"),
        new Kind<Broods.EggsObserved>("eggs observed"),
        new Kind<Broods.EggsDropped>("eggs dropped"),
        new Kind<Broods.AnimalIsolated>("animal isolated"),
        new Kind<Broods.AnimalReturned>("animal returned"),
        new Kind<Larvae.HatchingSeen>("hatching seen"),
        new Kind<Larvae.CollectionMade>("collection made"),
        new Kind<Larvae.CrossingMade>("crossing made"),
        new Kind<Larvae.CountMade>("count made", MaySayMore),
        new Kind<Larvae.DeadRemoved>("dead removed"),
        new Kind<Larvae.StageSampleTaken>("stage sample taken"),
        new Kind<Larvae.CohortsMoved>("cohorts moved"),
        new Kind<Larvae.CohortsMerged>("cohorts merged"),
        new Kind<Larvae.CohortSplit>("cohort split"),
        new Kind<Larvae.SettlementSeen>("settlement seen"),
        new Kind<Larvae.JuvenilesReturned>("juveniles returned"),
        new Kind<Larvae.JuvenilesCounted>("juveniles counted"),
        new Kind<Larvae.JuvenilesGivenAway>("juveniles given away"),
        new Kind<Larvae.LarvaeMeasured>("larvae measured"),
        new Kind<Larvae.SurvivalHeard>("survival heard"),
        new Kind<Readings.ReadingTaken>("reading taken", MaySayMore),
        new Kind<Readings.InstrumentDescribed>("instrument described", MaySayMore),
        new Kind<Readings.InstrumentCalibrated>("instrument calibrated", MaySayMore),
        new Kind<Vessels.VesselSetUp>("vessel set up"),
        new Kind<Vessels.VesselFilled>("vessel filled"),
        new Kind<Vessels.VesselEmptied>("vessel emptied"),
        new Kind<Vessels.VesselDisinfected>("vessel disinfected"),
        new Kind<Vessels.WaterMoved>("water moved"),
        new Kind<Vessels.VesselSiphoned>("vessel siphoned"),
        new Kind<Vessels.VesselFed>("vessel fed", MaySayMore),
        new Kind<Vessels.LightChanged>("light changed", MaySayMore),
        new Kind<Vessels.FeedDescribed>("feed described"),
        new Kind<Vessels.CultureDescribed>("culture described"),
        new Kind<Vessels.CultureHarvested>("culture harvested"),
        new Kind<Vessels.VesselLookedAt>("vessel looked at"),
        new Kind<Readings.CellsCounted>("cells counted"),
        new Kind<Vessels.AirChanged>("air changed"),
        new Kind<Vessels.HeaterChanged>("heater changed"),
        new Kind<Vessels.FilterChanged>("filter changed"),
        new Kind<Keeping.RunStarted>("run started"),
        new Kind<Keeping.RunEnded>("run ended"),
        new Kind<Keeping.TrialLaidOut>("trial laid out"),
        new Kind<Keeping.PowerFailed>("power failed"),
        new Kind<Keeping.PowerRestored>("power restored"),
        new Kind<Keeping.KeeperLeft>("keeper left"),
        new Kind<Keeping.KeeperReturned>("keeper returned"),
        new Kind<Keeping.ActionDone>("action done"),
        new Kind<Keeping.ActionSkipped>("action skipped"),
        new Kind<Keeping.NoteWritten>("note written"),
        new Kind<Keeping.PhotoAdded>("photo added", MaySayMore),
        new Kind<Keeping.ForecastIssued>("forecast issued"),
        new Kind<Vessels.WaterForetold>("water foretold"),
        new Kind<Keeping.ProfileValueChosen>("profile value chosen"),
        new Kind<Keeping.EntryTakenBack>("entry taken back"),
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
