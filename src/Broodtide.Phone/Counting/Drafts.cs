using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Broodtide.Phone.Counting;

/// <summary>Keeps what is being counted over a reload or a closed page.</summary>
/// <param name="read">Reads a text of the phone's store by name.</param>
/// <param name="write">Keeps a text under a name, or forgets it; says whether the store took it.</param>
internal sealed class Drafts(Func<string, string?> read, Func<string, string?, bool> write)
{
    public Draft<CountDraft> Count { get; } =
        new("count", DraftJson.Default.CountDraft, IsWhole, read, write);

    public Draft<StageDraft> Stages { get; } =
        new("stages", DraftJson.Default.StageDraft, draft => draft.Taps is not null, read, write);

    public Draft<GatherDraft> Gather { get; } =
        new("gather", DraftJson.Default.GatherDraft, draft => draft.IsWhole, read, write);

    private static bool IsWhole(CountDraft draft) =>
        draft.Samples is { Count: > 0 } samples
        && draft.At >= 0
        && draft.At < samples.Count
        && samples.All(sample =>
            sample is { Seen: null or (>= 0 and <= CountDraft.Most), Volume: not null, Unit: not null }
        );
}

/// <summary>The one draft of its sort.</summary>
internal sealed class Draft<T>(
    string name,
    JsonTypeInfo<T> json,
    Func<T, bool> isWhole,
    Func<string, string?> read,
    Func<string, string?, bool> write
)
    where T : class
{
    private readonly string _setting = "draft." + name;

    /// <summary>Whether the store took what was kept last.</summary>
    public bool IsKept { get; private set; } = true;

    /// <summary>What was being counted; none, also where it was kept by another version and cannot be read.</summary>
    public T? Recall()
    {
        if (read(_setting) is not { } text)
        {
            return null;
        }

        try
        {
            return JsonSerializer.Deserialize(text, json) is { } draft && isWhole(draft) ? draft : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public void Keep(T draft) => IsKept = write(_setting, JsonSerializer.Serialize(draft, json));

    public void Forget() => write(_setting, null);
}

[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase
)]
[JsonSerializable(typeof(CountDraft))]
[JsonSerializable(typeof(StageDraft))]
[JsonSerializable(typeof(GatherDraft))]
internal sealed partial class DraftJson : JsonSerializerContext;
