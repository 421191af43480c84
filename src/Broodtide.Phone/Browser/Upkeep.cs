using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>How much room the phone leaves, in bytes, by the browser's own reckoning.</summary>
/// <param name="UsedBytes">What this app takes up.</param>
/// <param name="AllowedBytes">What it may take up at most.</param>
internal readonly record struct StorageRoom(double UsedBytes, double AllowedBytes)
{
    /// <summary>
    /// Under this an entry is still kept, but the keeper is told before typing. An entry takes one to two kilobytes
    /// on the disk and a new version of the app about ten megabytes, so this is one update and a day of entries.
    /// The figure is a choice, not a measurement.
    /// </summary>
    public const double ReserveBytes = 12e6;

    public double LeftBytes => Math.Max(0, AllowedBytes - UsedBytes);

    public bool IsShort => LeftBytes < ReserveBytes;
}

/// <summary>What keeps the app itself in order: its newer versions, and the room it has.</summary>
internal sealed partial class Upkeep
{
    private const string Module = "upkeep";

    private bool _watching;

    /// <summary>A newer version lies ready, or the room was looked at.</summary>
    public event Action? Changed;

    /// <summary>A newer version of the app has been fetched whole and waits beside this one.</summary>
    public bool IsNewerReady { get; private set; }

    /// <summary>How many pages of the old version stood in the way when the newer one was asked for.</summary>
    public int OpenPages { get; private set; }

    /// <summary>The room when it was looked at last; none before that, or where the browser does not say.</summary>
    public StorageRoom? Room { get; private set; }

    /// <summary>Begins to watch. Nothing waits for it.</summary>
    public async Task WatchAsync()
    {
        if (_watching)
        {
            return;
        }

        _watching = true;
        await JSHost.ImportAsync(Module, "../js/upkeep.js");
        WhenNewer(() =>
        {
            IsNewerReady = true;
            Changed?.Invoke();
        });
        await LookAtRoomAsync();
    }

    /// <summary>Asks the browser how much room there is.</summary>
    public async Task LookAtRoomAsync()
    {
        await WatchAsync();
        using var told = await AskRoom();
        StorageRoom? room = told is null
            ? null
            : new(told.GetPropertyAsDouble("usage"), told.GetPropertyAsDouble("quota"));
        if (room != Room)
        {
            Room = room;
            Changed?.Invoke();
        }
    }

    /// <summary>Opens the newer version, unless the old one is open in other tabs too.</summary>
    public async Task OpenNewerAsync()
    {
        OpenPages = await TakeNewer();
        Changed?.Invoke();
    }

    /// <summary>Loads the page anew.</summary>
    public void OpenAgain() => Reload();

    /// <summary>Lays a text on the phone's clipboard; says whether it could.</summary>
    public async Task<bool> CopyAsync(string text)
    {
        await WatchAsync();
        return await Copy(text);
    }

    [JSImport("whenNewer", Module)]
    private static partial void WhenNewer([JSMarshalAs<JSType.Function>] Action told);

    [JSImport("takeNewer", Module)]
    private static partial Task<int> TakeNewer();

    [JSImport("openAgain", Module)]
    private static partial void Reload();

    [JSImport("room", Module)]
    private static partial Task<JSObject?> AskRoom();

    [JSImport("copy", Module)]
    private static partial Task<bool> Copy(string text);
}
