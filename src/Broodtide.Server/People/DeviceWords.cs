namespace Broodtide.Server.People;

/// <summary>
/// What a device calls itself, in two proper names, so that a person finds the own telephone in a list. Whoever signs
/// in may say anything: nothing depends on it.
/// </summary>
internal static class DeviceWords
{
    private static readonly (string Sign, string Name)[] Browsers =
    [
        ("Firefox/", "Firefox"),
        ("Edg", "Edge"),
        ("SamsungBrowser/", "Samsung Internet"),
        ("OPR/", "Opera"),
        ("CriOS/", "Chrome"),
        ("FxiOS/", "Firefox"),
        ("Chrome/", "Chrome"),
        ("Safari/", "Safari"),
    ];

    private static readonly (string Sign, string Name)[] Systems =
    [
        ("iPhone", "iPhone"),
        ("iPad", "iPad"),
        ("Android", "Android"),
        ("Windows", "Windows"),
        ("Mac OS X", "macOS"),
        ("CrOS", "ChromeOS"),
        ("Linux", "Linux"),
    ];

    public static string Of(string? userAgent)
    {
        string[] said = [.. new[] { First(Browsers, userAgent), First(Systems, userAgent) }.OfType<string>()];
        return said.Length == 0 ? "?" : string.Join(", ", said);
    }

    private static string? First((string Sign, string Name)[] list, string? userAgent) =>
        list.FirstOrDefault(it => userAgent?.Contains(it.Sign, StringComparison.Ordinal) == true).Name;
}
