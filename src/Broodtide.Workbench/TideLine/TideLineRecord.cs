using NodaTime;

namespace Broodtide.Workbench.TideLine;

/// <summary>
/// Everything the tide line of one run shows, computed before it is drawn: whoever draws it works out positions and
/// nothing else. Any list may be empty and any optional part absent; the picture then leaves that part out.
/// Rows are in ascending time, straight lines run between them, and they are held flat before the first and after
/// the last. Two rows at one instant make a step.
/// </summary>
public sealed record TideLineRecord
{
    /// <summary>What the run is called, as the keeper calls it.</summary>
    public required string Name { get; init; }

    /// <summary>The instant of drawing: what lies before it is past, what lies after it is to come.</summary>
    public required Instant Now { get; init; }

    /// <summary>The zone whose days and weeks are drawn.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>When the forecasts in this record were made.</summary>
    public required Instant MadeAt { get; init; }

    /// <summary>The zones of salinity, from the species profile.</summary>
    public TideZones Zones { get; init; } = new(FreshBelowPpt: 1, SeaFromPpt: 17);

    /// <summary>The salinity the keeper aims at, in ppt; drawn where none is known. Absent when nothing is planned.</summary>
    public double? PlannedPpt { get; init; }

    /// <summary>The brood while it is carried in fresh water.</summary>
    public TideBrood Brood { get; init; } = new();

    /// <summary>The nights of hatching: seen with the number collected, or with a probability.</summary>
    public IReadOnlyList<TideNight> Nights { get; init; } = [];

    /// <summary>The forecast of the first hatch while none was seen.</summary>
    public TideDays? Hatch { get; init; }

    /// <summary>The crossings, oldest first. A crossing replaced by a correction is not among them.</summary>
    public IReadOnlyList<TideCrossing> Crossings { get; init; } = [];

    /// <summary>The vessels this run's larvae live or lived in.</summary>
    public IReadOnlyList<TideVessel> Vessels { get; init; } = [];

    /// <summary>How many larvae live in all vessels together, as believed at <see cref="MadeAt"/>.</summary>
    public IReadOnlyList<TideRow> Alive { get; init; } = [];

    /// <summary>Whether <see cref="Alive"/> rests on too little for a middle: then only its bounds are drawn.</summary>
    public bool AliveIsRough { get; init; }

    /// <summary>The counts of larvae.</summary>
    public IReadOnlyList<TideCount> Counts { get; init; } = [];

    /// <summary>The names of the stages, in their order, from the species profile; the shares of the rows follow it.</summary>
    public IReadOnlyList<TideStage> StageNames { get; init; } = [];

    /// <summary>The share of larvae in each stage.</summary>
    public IReadOnlyList<TideStageRow> Stages { get; init; } = [];

    /// <summary>The return of juveniles to fresh water, seen or forecast.</summary>
    public TideReturn? Return { get; init; }

    /// <summary>How the run ended; two when some came home and the rest was given up. Empty while it goes on.</summary>
    public IReadOnlyList<TideEnd> Ends { get; init; } = [];

    /// <summary>Since when none was seen, in a vessel that nobody emptied.</summary>
    public Instant? NoneSeenSince { get; init; }

    /// <summary>A limit that the forecast passes within two days.</summary>
    public TideBreach? Breach { get; init; }

    /// <summary>Every entry of the journal that touches this run.</summary>
    public IReadOnlyList<TideEntry> Entries { get; init; } = [];
}
