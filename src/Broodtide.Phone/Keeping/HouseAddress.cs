using System.Text.Json;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.Keeping;

/// <summary>How the address under which the app was opened stands to the house.</summary>
internal enum AddressStanding
{
    /// <summary>It is the address of the house, or the house has none.</summary>
    Home,

    /// <summary>It is the address of the house, which was elsewhere before: what was not sent from there is still there.</summary>
    MovedHere,

    /// <summary>The house has left it.</summary>
    MovedAway,

    /// <summary>The server answers here, but the house is known by another address.</summary>
    Other,
}

/// <summary>
/// Where the house is. A browser keeps a store for each address, so a keeper who comes by another one must be told.
/// What the server said last is remembered for days without a network.
/// </summary>
internal sealed class HouseAddress
{
    private const string ToldSetting = "house.told";
    private const string SeenSetting = "house.former-seen";

    private readonly HttpClient _http;
    private readonly Func<string, string?> _read;
    private readonly Func<string, string?, bool> _write;
    private Task? _asking;

    public HouseAddress(HttpClient http)
        : this(http, Glue.ReadSetting, Glue.WriteSetting) { }

    public HouseAddress(HttpClient http, Func<string, string?> read, Func<string, string?, bool> write)
    {
        (_http, _read, _write) = (http, read, write);
        Told = Read(read(ToldSetting));
    }

    /// <summary>Something else is known now.</summary>
    public event Action? Changed;

    /// <summary>What the server said last; none if it never did.</summary>
    public HouseTold? Told { get; private set; }

    /// <summary>The address under which the app was opened.</summary>
    public string Here =>
        _http.BaseAddress?.GetLeftPart(UriPartial.Authority)
        ?? throw new InvalidOperationException("The app has no address.");

    /// <summary>The address before this one; none where there was none.</summary>
    public string? Before => Told is { Former: [var last, ..] } ? last : null;

    /// <summary>How the address of now stands to the house.</summary>
    public AddressStanding Standing =>
        Told?.Address is not { } home ? AddressStanding.Home
        : home == Here
            ? Before is { } before && _read(SeenSetting) != before ? AddressStanding.MovedHere
                : AddressStanding.Home
        : Told.Former.Contains(Here, StringComparer.Ordinal) ? AddressStanding.MovedAway
        : AddressStanding.Other;

    /// <summary>Asks the server once; without a network what was told before holds.</summary>
    public Task AskAsync() => _asking ??= FetchAsync();

    /// <summary>The keeper has seen to what lay at the address before.</summary>
    public void NothingIsLeftBefore()
    {
        _write(SeenSetting, Before);
        Changed?.Invoke();
    }

    private async Task FetchAsync()
    {
        try
        {
            using var answer = await _http.GetAsync(new Uri(HouseTold.Path, UriKind.Relative));
            if (answer.IsSuccessStatusCode && Read(await answer.Content.ReadAsStringAsync()) is { } told)
            {
                Told = told;
                _write(ToldSetting, JsonSerializer.Serialize(told, HouseToldJson.Default.HouseTold));
                Changed?.Invoke();
            }
        }
        catch (Exception away) when (away is HttpRequestException or OperationCanceledException)
        {
            // Without a network: what was told before holds.
        }
    }

    private static HouseTold? Read(string? text)
    {
        try
        {
            return text is null ? null : JsonSerializer.Deserialize(text, HouseToldJson.Default.HouseTold);
        }
        catch (JsonException)
        {
            // Whatever answered there, it was no house.
            return null;
        }
    }
}
