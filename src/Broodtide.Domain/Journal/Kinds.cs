using System.Collections.Frozen;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

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
}

/// <summary>One kind of fact: its stored name, its newest version, and how its bodies are written and read.</summary>
public abstract class Kind
{
    private protected Kind(string name, int version, Type type)
    {
        Name = name;
        Version = version;
        Type = type;
    }

    /// <summary>Subject and past participle.</summary>
    public string Name { get; }

    /// <summary>The newest version of its shape, from 1.</summary>
    public int Version { get; }

    /// <summary>The record that holds it.</summary>
    public Type Type { get; }

    /// <summary>The canonical bytes of a body.</summary>
    public abstract byte[] Write(Fact fact);

    internal abstract Fact Read(int version, ReadOnlySpan<byte> body);
}

/// <summary>A kind whose facts are one record.</summary>
/// <typeparam name="T">The record.</typeparam>
internal sealed class Kind<T>(
    string name,
    JsonTypeInfo<T> json,
    int version = 1,
    Func<int, JsonElement, byte[]>? lift = null
) : Kind(name, version, typeof(T))
    where T : Fact
{
    public override byte[] Write(Fact fact) =>
        CanonicalJson.From(JsonSerializer.SerializeToUtf8Bytes((T)fact, json));

    internal override Fact Read(int version, ReadOnlySpan<byte> body)
    {
        try
        {
            var lifted = version < Version && lift is not null ? Lifted(version, body) : body;
            var fact = JsonSerializer.Deserialize(lifted, json);
            return fact is null ? new UnreadableFact(Name, "null")
                : fact.Impossible() is { } reason ? new UnreadableFact(Name, reason.ToString())
                : fact;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException)
        {
            return new UnreadableFact(Name, e.Message);
        }
    }

    private ReadOnlySpan<byte> Lifted(int version, ReadOnlySpan<byte> body)
    {
        var reader = new Utf8JsonReader(body);
        using var document = JsonDocument.ParseValue(ref reader);
        return lift!(version, document.RootElement);
    }
}
