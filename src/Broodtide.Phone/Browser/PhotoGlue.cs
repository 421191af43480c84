using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>The script module of photos, one member for each thing it offers; fetched when first needed.</summary>
internal static partial class PhotoGlue
{
    private const string Module = "photos";
    private static Task? _loading;

    public static Task Load() => _loading ??= JSHost.ImportAsync(Module, "../js/photos.js");

    [JSImport("keep", Module)]
    internal static partial Task<bool> Keep(
        string entry,
        bool isWaiting,
        string hash,
        JSObject bytes,
        string? smallHash,
        JSObject? smallBytes
    );

    [JSImport("list", Module)]
    internal static partial Task<string> List();

    [JSImport("read", Module)]
    internal static partial Task<JSObject?> Read(string hash);

    [JSImport("sent", Module)]
    internal static partial Task Sent(string hash);

    [JSImport("remove", Module)]
    internal static partial Task Remove(string hash);

    [JSImport("address", Module)]
    internal static partial Task<string?> Address(string hash, string type);

    [JSImport("show", Module)]
    internal static partial string Show(JSObject bytes, string type);

    [JSImport("letGo", Module)]
    internal static partial void LetGo(string address);

    [JSImport("shrink", Module)]
    internal static partial Task<JSObject?> Shrink(JSObject bytes, string type, int across, int down);

    [JSImport("room", Module)]
    internal static partial Task<double> Room();
}
