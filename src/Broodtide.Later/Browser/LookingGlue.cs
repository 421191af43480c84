using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>The script module of chosen pictures, one member for each thing it offers; fetched when first needed.</summary>
internal static partial class LookingGlue
{
    private const string Module = "looking";
    private static Task? _loading;

    public static Task Load() => _loading ??= JSHost.ImportAsync(Module, "../js/looking.js");

    [JSImport("take", Module)]
    internal static partial int Take(string key, string id, bool add);

    [JSImport("put", Module)]
    internal static partial void Put(string key, string name, JSObject bytes);

    [JSImport("letGo", Module)]
    internal static partial void LetGo(string key);

    [JSImport("leave", Module)]
    internal static partial void Leave(string key, int at);

    [JSImport("nameOf", Module)]
    internal static partial string NameOf(string key, int at);

    [JSImport("sizeOf", Module)]
    internal static partial double SizeOf(string key, int at);

    [JSImport("bytesOf", Module)]
    internal static partial Task<JSObject?> BytesOf(string key, int at);

    [JSImport("show", Module)]
    internal static partial string Show(string key, int at);

    [JSImport("hide", Module)]
    internal static partial void Hide(string address);

    [JSImport("decode", Module)]
    internal static partial Task<JSObject?> Decode(string key, int at, int longestSide);

    [JSImport("openClip", Module)]
    internal static partial Task<JSObject?> OpenClip(string key);

    [JSImport("closeClip", Module)]
    internal static partial void CloseClip(string key);

    [JSImport("clipFrame", Module)]
    internal static partial Task<JSObject?> ClipFrame(string key, double seconds, int longestSide);

    [JSImport("encode", Module)]
    internal static partial Task<JSObject> Encode(int across, int down, JSObject pixels);

    [JSImport("showBytes", Module)]
    internal static partial string ShowBytes(JSObject jpeg);

    [JSImport("placeOf", Module)]
    internal static partial double[] PlaceOf(string id, double clientX, double clientY);

    [JSImport("bringIntoSight", Module)]
    internal static partial void BringIntoSight(string id);
}
