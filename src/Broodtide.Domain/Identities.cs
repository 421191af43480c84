using System.Text.Json;
using System.Text.Json.Serialization;

namespace Broodtide.Domain;

/// <summary>What every identity shares: it wraps one UUID and can be made from one.</summary>
/// <typeparam name="TSelf">The identity itself.</typeparam>
public interface IIdentity<TSelf>
    where TSelf : struct, IIdentity<TSelf>
{
    /// <summary>The UUID (version 7, made where the thing was first written down).</summary>
    Guid Value { get; }

    /// <summary>Wraps a UUID.</summary>
    static abstract TSelf From(Guid value);
}

/// <summary>One entry of the journal. Never used for order.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<EntryId>))]
public readonly record struct EntryId(Guid Value) : IIdentity<EntryId>
{
    /// <inheritdoc/>
    public static EntryId From(Guid value) => new(value);
}

/// <summary>One life of one store file: a phone's app, a server, a command line.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<ReplicaId>))]
public readonly record struct ReplicaId(Guid Value) : IIdentity<ReplicaId>
{
    /// <inheritdoc/>
    public static ReplicaId From(Guid value) => new(value);
}

/// <summary>One adult, female or male.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<AnimalId>))]
public readonly record struct AnimalId(Guid Value) : IIdentity<AnimalId>
{
    /// <inheritdoc/>
    public static AnimalId From(Guid value) => new(value);
}

/// <summary>One clutch of eggs on one female.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<BroodId>))]
public readonly record struct BroodId(Guid Value) : IIdentity<BroodId>
{
    /// <inheritdoc/>
    public static BroodId From(Guid value) => new(value);
}

/// <summary>One brood carried through.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<RunId>))]
public readonly record struct RunId(Guid Value) : IIdentity<RunId>
{
    /// <inheritdoc/>
    public static RunId From(Guid value) => new(value);
}

/// <summary>One thing that holds water.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<VesselId>))]
public readonly record struct VesselId(Guid Value) : IIdentity<VesselId>
{
    /// <inheritdoc/>
    public static VesselId From(Guid value) => new(value);
}

/// <summary>The water of a vessel between two emptyings.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<FillId>))]
public readonly record struct FillId(Guid Value) : IIdentity<FillId>
{
    /// <inheritdoc/>
    public static FillId From(Guid value) => new(value);
}

/// <summary>Larvae of one crossing (or of several within a day).</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<CohortId>))]
public readonly record struct CohortId(Guid Value) : IIdentity<CohortId>
{
    /// <inheritdoc/>
    public static CohortId From(Guid value) => new(value);
}

/// <summary>Larvae gathered from the hatching box at one time.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<CollectionId>))]
public readonly record struct CollectionId(Guid Value) : IIdentity<CollectionId>
{
    /// <inheritdoc/>
    public static CollectionId From(Guid value) => new(value);
}

/// <summary>One refractometer, hydrometer, meter or test kit.</summary>
/// <param name="Value">The UUID.</param>
[JsonConverter(typeof(IdentityConverter<InstrumentId>))]
public readonly record struct InstrumentId(Guid Value) : IIdentity<InstrumentId>
{
    /// <inheritdoc/>
    public static InstrumentId From(Guid value) => new(value);
}

/// <summary>Writes an identity as the lower-case text of its UUID.</summary>
/// <typeparam name="TId">The identity.</typeparam>
public sealed class IdentityConverter<TId> : JsonConverter<TId>
    where TId : struct, IIdentity<TId>
{
    /// <inheritdoc/>
    public override TId Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        TId.From(reader.GetGuid());

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, TId value, JsonSerializerOptions options) =>
        writer.WriteStringValue(value.Value);
}
