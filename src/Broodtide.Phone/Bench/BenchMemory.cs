using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Phone.Browser;
using NodaTime;

namespace Broodtide.Phone.Bench;

/// <summary>Keeps a running clock over a reload or a closed page, by name.</summary>
internal sealed class BenchMemory
{
    public BenchRun? Recall(string name)
    {
        if (Glue.ReadSetting("bench." + name) is not { } text)
        {
            return null;
        }

        try
        {
            return JsonSerializer.Deserialize(text, BenchJson.Default.KeptRun)?.ToRun();
        }
        catch (JsonException)
        {
            // Written by another version: a clock that nobody can read is no clock.
            return null;
        }
    }

    public void Keep(string name, BenchRun run) =>
        Glue.WriteSetting(
            "bench." + name,
            JsonSerializer.Serialize(KeptRun.From(run), BenchJson.Default.KeptRun)
        );

    public void Forget(string name) => Glue.WriteSetting("bench." + name, null);
}

/// <summary>A step as kept, its wait in milliseconds.</summary>
internal sealed record KeptStep(long WaitMilliseconds, string Deed, string Detail, string Done);

/// <summary>A run as kept, its instants in milliseconds since 1970.</summary>
internal sealed record KeptRun(KeptStep[] Steps, long Started, long[] Done)
{
    public static KeptRun From(BenchRun run) =>
        new(
            [
                .. run.Steps.Select(step => new KeptStep(
                    (long)step.Wait.TotalMilliseconds,
                    step.Deed,
                    step.Detail,
                    step.Done
                )),
            ],
            run.Started.ToUnixTimeMilliseconds(),
            [.. run.Done.Select(at => at.ToUnixTimeMilliseconds())]
        );

    public BenchRun? ToRun() =>
        Steps is null or [] || Done is null || Done.Length > Steps.Length
            ? null
            : new(
                [
                    .. Steps.Select(step => new BenchStep(
                        Duration.FromMilliseconds(step.WaitMilliseconds),
                        step.Deed,
                        step.Detail,
                        step.Done
                    )),
                ],
                Instant.FromUnixTimeMilliseconds(Started),
                [.. Done.Select(Instant.FromUnixTimeMilliseconds)]
            );
}

[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase
)]
[JsonSerializable(typeof(KeptRun))]
internal sealed partial class BenchJson : JsonSerializerContext;
