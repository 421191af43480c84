using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>How near the tide line stands.</summary>
public enum TideZoom
{
    /// <summary>All of the run.</summary>
    WholeRun,

    /// <summary>Four weeks, the entries on three staves.</summary>
    Weeks,

    /// <summary>Five days, with readings and amounts.</summary>
    Days,
}

/// <summary>The place a tide line is laid out for.</summary>
/// <param name="Width">In CSS pixels, the real width: the picture is laid out for it, never scaled.</param>
/// <param name="Zoom">How near.</param>
/// <param name="Middle">The instant two thirds across in a nearer view; now when absent.</param>
/// <param name="Small">The small form of lists, 74 high and without words.</param>
public sealed record TideFrame(
    double Width,
    TideZoom Zoom = TideZoom.WholeRun,
    Instant? Middle = null,
    bool Small = false
);

/// <summary>The sizes of the drawing rules, in CSS pixels.</summary>
public sealed record TideSizes
{
    public double Top { get; init; }
    public double FreshY { get; init; }
    public double PxPerPpt { get; init; }
    public double BrackishPxPerPpt { get; init; }
    public double Keel { get; init; }
    public double KeelGap { get; init; }
    public double Stage { get; init; }
    public double Night { get; init; }
    public double Dive { get; init; }
    public double Sweep { get; init; }

    /// <summary>Feet nearer than this are one group with one label.</summary>
    public double GroupWithin { get; init; }
    public double LeastHeight { get; init; }

    public static readonly TideSizes Phone = new()
    {
        Top = 26,
        FreshY = 96,
        PxPerPpt = 3.9,
        BrackishPxPerPpt = 3.9,
        Keel = 62,
        KeelGap = 5,
        Stage = 36,
        Night = 32,
        Dive = 11,
        Sweep = 26,
        GroupWithin = 7,
        LeastHeight = 360,
    };

    public static readonly TideSizes Wide = Phone with
    {
        FreshY = 104,
        PxPerPpt = 4.5,
        BrackishPxPerPpt = 4.5,
        Keel = 74,
        Stage = 44,
        Dive = 14,
        Sweep = 40,
        GroupWithin = 14,
        LeastHeight = 400,
    };

    public static readonly TideSizes Small = Phone with
    {
        Top = 0,
        FreshY = 16,
        PxPerPpt = 0.92,
        BrackishPxPerPpt = 0.92,
        Keel = 20,
        KeelGap = 3.5,
        Stage = 0,
        Night = 12,
        Dive = 9,
        Sweep = 16,
        LeastHeight = 74,
    };

    /// <summary>The folded scale of a nearer view with nothing of the fresh line in it.</summary>
    public TideSizes Folded =>
        this with
        {
            FreshY = 46,
            BrackishPxPerPpt = 1.35,
            PxPerPpt = 5.6,
            Keel = 84,
            KeelGap = 8,
        };
}
