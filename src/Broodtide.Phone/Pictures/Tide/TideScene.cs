using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>
/// One tide line while it is laid out: the record, its scales, and what was drawn so far. Each part of the picture
/// adds its shapes, the lines that words must leave alone, and what a finger can find.
/// </summary>
public sealed class TideScene
{
    private const double WideFrom = 700;
    private const double RoomForAlive = 17;

    public TideScene(PictureText text, TideLineRecord record, TideFrame frame)
    {
        Text = text;
        Record = record;
        Frame = frame;
        Width = Math.Max(frame.Width, frame.Small ? 120 : 320);
        View = TideView.Of(record, frame);
        Main = TideFleet.Main(record);
        IsEnded = record.Ends.Count > 0;
        NowX = IsEnded ? Width : Math.Clamp(X(record.Now), 0, Width);
        HasFuture = !IsEnded && NowX < Width;
        IsWide = !frame.Small && Width >= WideFrom;
        Sizes =
            frame.Small ? TideSizes.Small
            : IsWide ? TideSizes.Wide
            : TideSizes.Phone;
        IsFolded = !frame.Small && frame.Zoom != TideZoom.WholeRun && !FreshLineInView();
        Sizes = IsFolded ? Sizes.Folded : Sizes;
        Sizes = frame.Small ? Shallow(Sizes) : Sizes;
        PxPerLarva = Sizes.Keel / Math.Max(1e-9, MostAlive());
        HasStages = !frame.Small && record.Stages.Count > 1 && record.StageNames.Count > 1;
        BedY = Bed();
        StageBottom = BedY + (HasStages ? Sizes.Stage : 0);
        var lanes = frame.Zoom == TideZoom.WholeRun ? 20 : 3 * StaveHeight + 4;
        BorderY = frame.Small ? Sizes.LeastHeight : StageBottom + lanes;
        Height = frame.Small ? Sizes.LeastHeight : BorderY + 7 + 20;
    }

    public const double StaveHeight = 26;

    public PictureText Text { get; }
    public TideLineRecord Record { get; }
    public TideFrame Frame { get; }
    public TideView View { get; }
    public TideSizes Sizes { get; private set; }
    public TideVessel? Main { get; }
    public double Width { get; }
    public double Height { get; }
    public double NowX { get; }
    public double BedY { get; }
    public double StageBottom { get; }
    public double BorderY { get; }
    public double PxPerLarva { get; }
    public bool IsEnded { get; }
    public bool IsWide { get; }
    public bool IsFolded { get; }
    public bool HasFuture { get; }
    public bool HasStages { get; }

    public List<Shape> Shapes { get; } = [];
    public List<Box> Obstacles { get; } = [];
    public List<TouchTarget> Targets { get; } = [];

    /// <summary>The instant up to which things are past.</summary>
    public Instant PastEnd => IsEnded ? Record.Ends.Max(end => end.At) : Record.Now;

    public double X(Instant at) => (at - View.From).TotalDays / (View.To - View.From).TotalDays * Width;

    public Instant At(double x) => View.From + ((View.To - View.From) * (x / Width));

    public double Y(double ppt)
    {
        var sea = Record.Zones.SeaFromPpt;
        return Sizes.FreshY
            + (Math.Min(ppt, sea) * Sizes.BrackishPxPerPpt)
            + (Math.Max(0, ppt - sea) * Sizes.PxPerPpt);
    }

    public bool InView(Instant at) => at >= View.From && at <= View.To;

    /// <summary>The salinity larvae of a vessel live in, or the planned one where none was ever read.</summary>
    public double Salinity(TideVessel? vessel, Instant at) =>
        TideTrack.At(vessel?.Salinity ?? [], at)?.Middle ?? Record.PlannedPpt ?? Record.Zones.SeaFromPpt;

    /// <summary>The level a keel hangs from: the line's mean over nine days, so that a top-up is no death.</summary>
    public double Calm(TideVessel vessel, Instant at)
    {
        var half = Duration.FromDays(4.5);
        var level =
            vessel.Salinity.Count > 0
                ? TideTrack.MeanMedian(vessel.Salinity, at - half, at + half)
                : Salinity(vessel, at);
        return Y(level) + Sizes.KeelGap;
    }

    public void Add(Shape shape) => Shapes.Add(shape);

    // In the small form the saltiest water and the keel under it must fit, so the scale gives way.
    private TideSizes Shallow(TideSizes sizes)
    {
        var saltiest = Record
            .Vessels.SelectMany(vessel => vessel.Salinity)
            .Where(row => InView(row.At))
            .Select(row => row.Value.High)
            .Append(Record.PlannedPpt ?? Record.Zones.SeaFromPpt)
            .Max();
        var room = sizes.LeastHeight - sizes.FreshY - sizes.Keel - sizes.KeelGap - 1;
        var scale = Math.Min(sizes.PxPerPpt, room / saltiest);
        return sizes with { PxPerPpt = scale, BrackishPxPerPpt = scale };
    }

    private double MostAlive() =>
        Record
            .Vessels.SelectMany(vessel => vessel.Alive)
            .Concat(Record.Alive)
            .Concat(Record.Return?.Juveniles ?? [])
            .Select(row => row.Value.High)
            .Concat(CountsAlone.Select(count => count.Larvae.High))
            .DefaultIfEmpty(0)
            .Max();

    // Without an estimate, the counts alone give the scale.
    private IEnumerable<TideCount> CountsAlone => Record.Alive.Count == 0 ? Record.Counts : [];

    private bool FreshLineInView()
    {
        var carriedTo = Record.Brood.LastSeenCarrying ?? TideFleet.SeaFrom(Record) ?? Record.Now;
        return (Record.Brood.FirstSeenBerried is { } from && from <= View.To && carriedTo >= View.From)
            || Record.Crossings.Any(crossing => InView(crossing.At))
            || (Record.Return?.Seen.Any(InView) ?? false)
            || (Record.Return?.Forecast is { } days && days.Early <= View.To && days.Late >= View.From)
            || (Record.Hatch is { } hatch && hatch.Early <= View.To && hatch.Late >= View.From)
            || Record.Ends.Any(end => end.Kind == TideEndKind.Home && InView(end.At));
    }

    private double Bed()
    {
        if (Frame.Small)
        {
            return Sizes.LeastHeight;
        }

        var deepest = Y(Record.PlannedPpt ?? Record.Zones.SeaFromPpt) + Sizes.KeelGap;
        foreach (var vessel in Record.Vessels)
        {
            foreach (var row in vessel.Salinity.Where(row => InView(row.At)))
            {
                deepest = Math.Max(deepest, Y(row.Value.High));
            }
        }

        if (Main is { } main)
        {
            foreach (var row in TideKeelPart.RowsOf(this).Where(row => InView(row.At)))
            {
                deepest = Math.Max(deepest, Calm(main, row.At) + (row.Value.High * PxPerLarva));
            }

            foreach (var count in CountsAlone.Where(count => count.VesselId == main.Id && InView(count.At)))
            {
                deepest = Math.Max(deepest, Calm(main, count.At) + (count.Larvae.High * PxPerLarva));
            }
        }

        if (
            Main is { } carrying
            && !IsEnded
            && InView(Record.Now)
            && TideTrack.At(TideKeelPart.RowsOf(this), Record.Now) is { } alive
        )
        {
            deepest = Math.Max(
                deepest,
                Calm(carrying, Record.Now) + (alive.High * PxPerLarva) + RoomForAlive
            );
        }

        var lanes = Frame.Zoom == TideZoom.WholeRun ? 20 : 3 * StaveHeight + 4;
        var below = (HasStages ? Sizes.Stage : 0) + lanes + 27;
        return Math.Max(deepest + 10, Sizes.LeastHeight - below);
    }
}
