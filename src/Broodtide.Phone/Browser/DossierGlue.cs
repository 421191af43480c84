using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>The script module of others' dossiers, one member for each thing it offers; fetched when first needed.</summary>
internal static partial class DossierGlue
{
    private const string Module = "dossiers";
    private static Task? _loading;

    public static Task Load() => _loading ??= JSHost.ImportAsync(Module, "../js/dossiers.js");

    [JSImport("put", Module)]
    internal static partial Task<bool> Put(string id, string line, JSObject bytes);

    [JSImport("list", Module)]
    internal static partial Task<string> List();

    [JSImport("read", Module)]
    internal static partial Task<JSObject?> Read(string id);

    [JSImport("remove", Module)]
    internal static partial Task<bool> Remove(string id);
}
