using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Phone.Sensing;

/// <summary>
/// What the server told of sensors, kept on this phone for when there is no network: hours, findings and alarms. It is asked
/// for where it is shown, and never held up a page.
/// </summary>
internal sealed class SensorShelf(HttpClient http, Func<Task<byte[]?>> read, Func<byte[], Task> keep)
{
    private const string Kept = "sensors";

    private Task? _reading;

    public SensorShelf(HttpClient http, BrowserStore store)
        : this(http, () => store.GetFact(Kept), bytes => store.PutFact(Kept, bytes)) { }

    /// <summary>Something else is known now.</summary>
    public event Action? Changed;

    /// <summary>What was told last; none where the server never told anything on this phone.</summary>
    public SensorsSeen? Told { get; private set; }

    /// <summary>Whether the server answered when it was asked last.</summary>
    public bool IsFresh { get; private set; }

    /// <summary>Reads what is kept on this phone, once.</summary>
    public Task OpenAsync() => _reading ??= ReadAsync();

    /// <summary>Asks the server; without it what is kept holds.</summary>
    public async Task AskAsync()
    {
        await OpenAsync();
        try
        {
            using var answer = await http.GetAsync(new Uri(SensorsSeen.Path, UriKind.Relative));
            IsFresh = answer.IsSuccessStatusCode;
            if (
                IsFresh
                && await answer.Content.ReadAsByteArrayAsync() is var bytes
                && Read(bytes) is { } told
            )
            {
                Told = told;
                await KeepAsync(bytes);
            }
        }
        catch (Exception away) when (away is HttpRequestException or OperationCanceledException)
        {
            IsFresh = false;
        }

        Changed?.Invoke();
    }

    /// <summary>Says where a sensor stands from now on.</summary>
    /// <returns>Why not, as a code; none where it is done.</returns>
    public Task<string?> PlaceAsync(string sensor, Guid? vessel) =>
        SendAsync("place", new PlaceAsked(sensor, vessel), SensorsJson.Default.PlaceAsked);

    /// <summary>Says when a sensor raises an alarm.</summary>
    /// <returns>Why not, as a code; none where it is done.</returns>
    public Task<string?> LimitAsync(string sensor, SensorLimits? limits) =>
        SendAsync("limits", new LimitsAsked(sensor, limits), SensorsJson.Default.LimitsAsked);

    /// <summary>Says that an alarm was seen.</summary>
    /// <returns>Why not, as a code; none where it is done.</returns>
    public Task<string?> AcknowledgeAsync(Guid alarm) =>
        SendAsync("acknowledge", new AcknowledgeAsked(alarm), SensorsJson.Default.AcknowledgeAsked);

    private async Task<string?> SendAsync<T>(string path, T asked, JsonTypeInfo<T> shape)
    {
        try
        {
            using var content = new StringContent(
                JsonSerializer.Serialize(asked, shape),
                Encoding.UTF8,
                "application/json"
            );
            using var answer = await http.PostAsync(
                new Uri($"{SensorsSeen.Path}/{path}", UriKind.Relative),
                content
            );
            if (!answer.IsSuccessStatusCode)
            {
                return
                    (await answer.Content.ReadFromJsonAsync(PeopleJson.Default.Refused))?.Code is { } code
                    && code.StartsWith("sensor", StringComparison.Ordinal)
                    ? code
                    : "sensor-not-done";
            }
        }
        catch (Exception away)
            when (away is HttpRequestException or OperationCanceledException or JsonException)
        {
            return "sensor-house-away";
        }

        await AskAsync();
        return null;
    }

    private async Task ReadAsync()
    {
        try
        {
            Told = await read() is { } bytes ? Read(bytes) : null;
        }
        catch (StoreException)
        {
            // Nothing kept: the server tells it again.
        }

        Changed?.Invoke();
    }

    private async Task KeepAsync(byte[] bytes)
    {
        try
        {
            await keep(bytes);
        }
        catch (Exception full)
            when (full is StoreException or System.Runtime.InteropServices.JavaScript.JSException)
        {
            // Without room it is shown now and asked for again later.
        }
    }

    private static SensorsSeen? Read(byte[] bytes)
    {
        try
        {
            return JsonSerializer.Deserialize(bytes, SensorsJson.Default.SensorsSeen);
        }
        catch (JsonException)
        {
            // Of another version, or no house answered.
            return null;
        }
    }
}
