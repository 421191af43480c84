using NodaTime;

namespace Broodtide.Workbench.Photos;

/// <summary>When a camera says that it took a photo: its own clock, which may be wrong, so only an offer.</summary>
/// <param name="Local">The camera's wall clock.</param>
/// <param name="Offset">Its distance from UTC, where the camera wrote one.</param>
public readonly record struct PhotoTime(LocalDateTime Local, Offset? Offset)
{
    /// <summary>The instant, in a zone where the camera wrote no offset; in a gap of the clock the one after it.</summary>
    public Instant In(DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Offset is { } offset
            ? Local.WithOffset(offset).ToInstant()
            : Local.InZoneLeniently(zone).ToInstant();
    }
}

/// <summary>What the headers of a photo say.</summary>
/// <param name="Format">What it is.</param>
/// <param name="Across">Pixels across, as stored: before it is turned.</param>
/// <param name="Down">Pixels down, as stored.</param>
/// <param name="Orientation">How it is to be turned, 1 to 8 (EXIF 2.32, tag 0x0112); 1 is as stored.</param>
/// <param name="Taken">When the camera says it was taken.</param>
/// <param name="HoldsPlace">Whether the camera wrote where it was taken (a GPS directory).</param>
/// <param name="HoldsMore">Whether there is anything beside the picture, its colours and its orientation.</param>
public sealed record PhotoLook(
    PhotoFormat Format,
    int Across,
    int Down,
    int Orientation,
    PhotoTime? Taken,
    bool HoldsPlace,
    bool HoldsMore
);
