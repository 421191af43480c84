using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using NodaTime;

namespace Broodtide.Phone.Keeping;

/// <summary>Something that was due, in the words of then.</summary>
/// <param name="Begin">When it was to begin.</param>
/// <param name="End">By when.</param>
/// <param name="Deed">What.</param>
/// <param name="Door">The page that does it; none where its own key did.</param>
internal sealed record KeptDeed(string Begin, string End, string Deed, string? Door);

/// <summary>What was due when it was worked out last.</summary>
/// <param name="At">When, in milliseconds since 1970.</param>
/// <param name="Deeds">The first few.</param>
internal sealed record KeptDue(long At, IReadOnlyList<KeptDeed> Deeds);

/// <summary>A value on a kept scale.</summary>
/// <param name="Value">On the scale.</param>
/// <param name="Text">As it was drawn.</param>
/// <param name="IsHalf">Whether it lies between two lines of the scale.</param>
internal sealed record ScaleStep(double Value, string Text, bool IsHalf);

/// <summary>The reading that was most likely taken next.</summary>
/// <param name="Vessel">In which water.</param>
/// <param name="Title">What is read of which water, in words.</param>
/// <param name="Above">By what and on which scale, in words.</param>
/// <param name="Instrument">By what; none if nothing was named.</param>
/// <param name="Unit">On which scale.</param>
/// <param name="Steps">The values to tap.</param>
internal sealed record KeptScale(
    Guid Vessel,
    string Title,
    string Above,
    Guid? Instrument,
    string Unit,
    IReadOnlyList<ScaleStep> Steps
)
{
    /// <summary>The reading of a value.</summary>
    public ReadingTaken Reading(double value) =>
        new(
            TypedNumber.Of(value, Unit),
            new VesselId(Vessel),
            Instrument is { } id ? new InstrumentId(id) : null
        );
}

/// <summary>
/// What this phone showed last, so that it has something true to show before the journal is read: what was due, told
/// with its time, and the scale that a reading is tapped on. It may be thrown away.
/// </summary>
internal sealed class LastState(Func<string, string?> read, Func<string, string?, bool> write)
{
    private const string DueSetting = "last-due";
    private const string ScaleSetting = "last-scale";
    private const int MostDeeds = 8;

    /// <summary>What was due; none if nothing was ever worked out here.</summary>
    public KeptDue? Due => Read(DueSetting, LastStateJson.Default.KeptDue);

    /// <summary>The reading that was likely; none if none ever was.</summary>
    public KeptScale? Scale => Read(ScaleSetting, LastStateJson.Default.KeptScale);

    /// <summary>Keeps what is due.</summary>
    public void Keep(Instant at, IEnumerable<KeptDeed> deeds) =>
        Write(
            DueSetting,
            new KeptDue(at.ToUnixTimeMilliseconds(), [.. deeds.Take(MostDeeds)]),
            LastStateJson.Default.KeptDue
        );

    /// <summary>Keeps the scale that a reading is tapped on.</summary>
    public void Keep(KeptScale scale) => Write(ScaleSetting, scale, LastStateJson.Default.KeptScale);

    private T? Read<T>(string setting, JsonTypeInfo<T> type)
        where T : class
    {
        try
        {
            return read(setting) is { Length: > 0 } text ? JsonSerializer.Deserialize(text, type) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private void Write<T>(string setting, T state, JsonTypeInfo<T> type) =>
        write(setting, JsonSerializer.Serialize(state, type));
}

[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true
)]
[JsonSerializable(typeof(KeptDue))]
[JsonSerializable(typeof(KeptScale))]
internal sealed partial class LastStateJson : JsonSerializerContext;
