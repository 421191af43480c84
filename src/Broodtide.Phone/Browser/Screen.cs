namespace Broodtide.Phone.Browser;

/// <summary>What the browser said when it was asked to keep the screen on.</summary>
internal enum Awake
{
    Off,
    Held,
    Refused,
    Absent,
}

/// <summary>The screen: how wide it is, whether it stays on, and when it is seen again.</summary>
internal sealed class Screen
{
    /// <summary>From this width on, a run and its vessel stand side by side.</summary>
    public const int BroadPixels = 1000;

    /// <summary>The width of the page in CSS pixels.</summary>
    public int WidthPixels { get; private set; }

    public bool IsBroad => WidthPixels >= BroadPixels;

    /// <summary>The width has changed.</summary>
    public event Action? Resized;

    /// <summary>The page is seen again after a time in the dark.</summary>
    public event Action? Seen;

    public void Watch()
    {
        WidthPixels = Glue.Width();
        Glue.WhenResized(width =>
        {
            WidthPixels = width;
            Resized?.Invoke();
        });
        Glue.WhenSeen(() => Seen?.Invoke());
    }

    public async Task<Awake> StayAwake(bool wanted) =>
        await Glue.KeepAwake(wanted) switch
        {
            "held" => Awake.Held,
            "refused" => Awake.Refused,
            "absent" => Awake.Absent,
            _ => Awake.Off,
        };
}
