using Broodtide.Domain;
using NodaTime;

namespace Broodtide.Workbench.Feeding;

/// <summary>The small picture of a culture: its density over the days, counted, worked out and to come.</summary>
public sealed record CultureRecord
{
    /// <summary>The vessel's name.</summary>
    public required string VesselName { get; init; }

    /// <summary>The instant of drawing.</summary>
    public required Instant Now { get; init; }

    /// <summary>The zone whose days are drawn.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The first instant in the picture.</summary>
    public required Instant From { get; init; }

    /// <summary>The last; after <see cref="Now"/>.</summary>
    public required Instant To { get; init; }

    /// <summary>Cells or animals a mL, or the share of the surface covered, past and to come; above zero.</summary>
    public required IReadOnlyList<CulturePointAt> Points { get; init; }

    /// <summary>What was counted, or seen of a film.</summary>
    public required IReadOnlyList<CultureCount> Counts { get; init; }

    /// <summary>From which density, or cover, it can be used.</summary>
    public required double Ready { get; init; }

    /// <summary>Whether it is a film.</summary>
    public required bool IsFilm { get; init; }

    private static readonly Duration Before = Duration.FromDays(21);
    private static readonly Duration After = Duration.FromDays(10);

    /// <summary>The picture of a culture.</summary>
    /// <param name="outlook">What is computed.</param>
    /// <param name="vessel">The vessel.</param>
    /// <returns>The record; none where the vessel is no culture.</returns>
    public static CultureRecord? Of(Outlook outlook, VesselId vessel)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        if (outlook.CultureOf(vessel) is not { } culture)
        {
            return null;
        }

        var from = Instant.Max(outlook.Now - Before, culture.Started);
        return new()
        {
            VesselName = outlook.House.Vessel(vessel).Name ?? "",
            Now = outlook.Now,
            Zone = outlook.Zone,
            From = Instant.Min(from, outlook.Now - Duration.FromDays(1)),
            To = outlook.Now + After,
            Points = [.. culture.Track.Where(point => point.At >= from)],
            Counts = [.. culture.Counts.Where(count => count.At >= from)],
            Ready = culture.Ready.Wanted,
            IsFilm = culture.IsFilm,
        };
    }
}
