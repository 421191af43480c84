using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Broodtide.Phone.Reminding;

/// <summary>How the calendar address stands on the server.</summary>
/// <param name="Made">When it was made, ISO 8601 in UTC; none where there is none.</param>
/// <param name="Path">The address itself, told once when it is made; never again.</param>
internal sealed record CalendarStanding(string? Made, string? Path = null);

/// <summary>What an address is asked for with.</summary>
/// <param name="Zone">The zone of the keeper, as IANA names it.</param>
/// <param name="Manner">How it is to be told.</param>
internal sealed record CalendarWish(string Zone, string Manner);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(CalendarStanding))]
[JsonSerializable(typeof(CalendarWish))]
internal sealed partial class CalendarJson : JsonSerializerContext;

/// <summary>The calendar address of this person at the server, where the server can be reached.</summary>
internal sealed class CalendarLink(HttpClient http)
{
    /// <summary>Where phone and server speak of it.</summary>
    public const string Path = "api/calendar";

    /// <summary>How it stands; none where the server is away or says no.</summary>
    public Task<CalendarStanding?> AskAsync() => SendAsync(HttpMethod.Get, null);

    /// <summary>Makes a new address; the one before opens nothing any more.</summary>
    public Task<CalendarStanding?> RenewAsync(CalendarWish wish) =>
        SendAsync(HttpMethod.Post, JsonSerializer.Serialize(wish, CalendarJson.Default.CalendarWish));

    /// <summary>Switches the address off.</summary>
    public Task<CalendarStanding?> EndAsync() => SendAsync(HttpMethod.Delete, null);

    private async Task<CalendarStanding?> SendAsync(HttpMethod method, string? body)
    {
        try
        {
            using var request = new HttpRequestMessage(method, Path);
            if (body is not null)
            {
                request.Content = new StringContent(body, Encoding.UTF8, "application/json");
            }

            using var answer = await http.SendAsync(request);
            return answer.IsSuccessStatusCode
                ? JsonSerializer.Deserialize(
                    await answer.Content.ReadAsStringAsync(),
                    CalendarJson.Default.CalendarStanding
                )
                : null;
        }
        catch (Exception away)
            when (away is HttpRequestException or OperationCanceledException or JsonException)
        {
            return null;
        }
    }
}
