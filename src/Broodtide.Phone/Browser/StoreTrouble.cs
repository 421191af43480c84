using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>What stands in the way of the store on this phone.</summary>
internal enum StoreTrouble
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>Another tab holds the store open as an older version made it; it is waited for.</summary>
    Blocked,

    /// <summary>Another tab has made the store newer than this page understands.</summary>
    Newer,

    /// <summary>The store was made by a newer version than this page is of.</summary>
    Older,

    /// <summary>The phone has no room left for what was to be written.</summary>
    Full,

    /// <summary>The browser does not give the store, as in a private window, or it failed.</summary>
    Closed,
}

/// <summary>The store did not take or give something; what was there before is as it was.</summary>
internal sealed class StoreException(StoreTrouble trouble, Exception inner)
    : Exception($"The store on this phone: {trouble}.", inner)
{
    public StoreTrouble Trouble => trouble;
}

/// <summary>Troubles by the names that the browser gives them.</summary>
internal static class StoreTroubles
{
    /// <summary>As the script module tells it.</summary>
    public static StoreTrouble Of(string told) =>
        told switch
        {
            "open" => StoreTrouble.None,
            "blocked" => StoreTrouble.Blocked,
            "newer" => StoreTrouble.Newer,
            "older" => StoreTrouble.Older,
            _ => StoreTrouble.Closed,
        };

    /// <summary>The refusals of IndexedDB carry their name before their words.</summary>
    public static StoreTrouble Of(JSException refused) => OfMessage(refused.Message);

    public static StoreTrouble OfMessage(string message) =>
        message.Contains("QuotaExceededError", StringComparison.Ordinal) ? StoreTrouble.Full
        : message.Contains("VersionError", StringComparison.Ordinal) ? StoreTrouble.Older
        : StoreTrouble.Closed;
}
