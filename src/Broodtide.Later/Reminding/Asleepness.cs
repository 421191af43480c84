using Broodtide.Phone.Browser;
using Broodtide.Workbench.Hatching;
using NodaTime.Text;

namespace Broodtide.Phone.Reminding;

/// <summary>When the keeper sleeps, as this phone remembers it.</summary>
internal static class Asleepness
{
    private const string Setting = "asleep";

    private static readonly LocalTimePattern Minute = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>The stretch kept on this phone; the usual one where none is.</summary>
    public static ClockStretch Kept
    {
        get => Read(Glue.ReadSetting(Setting));
        set => Glue.WriteSetting(Setting, Write(value));
    }

    /// <summary>A time of day as a field for one holds it.</summary>
    public static string Text(NodaTime.LocalTime time) => Minute.Format(time);

    /// <summary>A time of day; none of an emptied field.</summary>
    public static NodaTime.LocalTime? Time(string? text) =>
        text is { Length: >= 5 } && Minute.Parse(text[..5]) is { Success: true, Value: var time }
            ? time
            : null;

    public static string Write(ClockStretch stretch) => $"{Text(stretch.From)}-{Text(stretch.Until)}";

    public static ClockStretch Read(string? text) =>
        text is not null && KeeperHours.Read(text, Setting) is { Succeeded: true, Value: var read }
            ? read
            : KeeperHours.Usual.Unable[0];
}
