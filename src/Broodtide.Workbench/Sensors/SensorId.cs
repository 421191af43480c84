namespace Broodtide.Workbench.Sensors;

/// <summary>
/// Which sensor: the device that sends for it, and its name on that device. Both are short plain names, so that they can
/// stand in a topic, a file name and an address as they are.
/// </summary>
public sealed record SensorId
{
    /// <summary>Most letters of a name.</summary>
    public const int LongestName = 48;

    private SensorId(string device, string name)
    {
        Device = device;
        Name = name;
    }

    /// <summary>The device that sends for it.</summary>
    public string Device { get; }

    /// <summary>Its name on the device.</summary>
    public string Name { get; }

    /// <summary>The sensor of two names; none where one is not plain.</summary>
    /// <param name="device">The device: letters and figures of ASCII, hyphen, underscore, full stop.</param>
    /// <param name="name">The sensor on it, written alike.</param>
    public static SensorId? Find(string device, string name) =>
        IsPlain(device) && IsPlain(name) ? new(device, name) : null;

    /// <summary>The sensor of a text such as <c>shelf-1/water</c>; none where it is not one.</summary>
    /// <param name="text">Device and name, parted by a slash.</param>
    public static SensorId? Find(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Split('/') is [var device, var name] ? Find(device, name) : null;
    }

    /// <summary>Whether a text can name a device or a sensor.</summary>
    /// <param name="text">Any text.</param>
    public static bool IsPlain(string? text) =>
        text is { Length: > 0 and <= LongestName }
        && char.IsAsciiLetterOrDigit(text[0])
        && text.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' or '.');

    /// <summary>Device and name, parted by a slash.</summary>
    public override string ToString() => $"{Device}/{Name}";
}
