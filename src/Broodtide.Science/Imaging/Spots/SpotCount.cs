using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>One bright thing that was found.</summary>
/// <param name="X">Middle across, in pixels of the picture from the middle of its leftmost pixel.</param>
/// <param name="Y">Middle down, in pixels of the picture from the middle of its topmost pixel.</param>
/// <param name="Area">Its pixels of the picture.</param>
public readonly record struct SpotMark(double X, double Y, double Area);

/// <summary>How many bright things a picture shows.</summary>
/// <param name="Number">The number behind it: 5, 50 and 95 %.</param>
/// <param name="Marks">What was found, for showing; their number is what was seen, not what is there.</param>
/// <param name="ShareHidden">Share of all that likely lies over or under another and is not marked, 0 to 1.</param>
/// <param name="Remarks">Why the number is not surer, as codes.</param>
public sealed record SpotCount(
    Interval Number,
    IReadOnlyList<SpotMark> Marks,
    double ShareHidden,
    IReadOnlyList<Remark> Remarks
);

/// <summary>What one frame of a burst shows.</summary>
/// <param name="Marks">What moved in it, in pixels of this frame.</param>
/// <param name="Shift">How far the frame lies from the middle one, in pixels.</param>
/// <param name="IsUsed">Whether its count went into the number.</param>
public sealed record FrameSpots(IReadOnlyList<SpotMark> Marks, PixelShift Shift, bool IsUsed);

/// <summary>How many bright things move in a burst.</summary>
/// <param name="Number">The number behind it: 5, 50 and 95 %.</param>
/// <param name="Frames">Each frame in the order taken.</param>
/// <param name="ShareHidden">Share of all that likely lies over or under another and is not marked, 0 to 1.</param>
/// <param name="Remarks">Why the number is not surer, and what was left out, as codes.</param>
public sealed record BurstCount(
    Interval Number,
    IReadOnlyList<FrameSpots> Frames,
    double ShareHidden,
    IReadOnlyList<Remark> Remarks
);
