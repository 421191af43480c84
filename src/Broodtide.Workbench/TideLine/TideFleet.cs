using NodaTime;

namespace Broodtide.Workbench.TideLine;

/// <summary>Questions that every way of showing a tide line asks of its record.</summary>
public static class TideFleet
{
    /// <summary>
    /// The vessel that carries the picture: most larvae alive now, or at the end of a run that has ended; without an
    /// estimate, the one most larvae crossed into. Null when there is no vessel.
    /// </summary>
    public static TideVessel? Main(TideLineRecord record)
    {
        var at = record.Ends.Count > 0 ? record.Ends.Max(end => end.At) : record.Now;
        return record
            .Vessels.Where(vessel => vessel.JoinedInto is null || vessel.JoinedInto.At > at)
            .OrderByDescending(vessel => TideTrack.At(vessel.Alive, at)?.Middle ?? -1)
            .ThenByDescending(vessel => Crossed(record, vessel))
            .FirstOrDefault();
    }

    /// <summary>The first crossing; null while all are in fresh water.</summary>
    public static Instant? SeaFrom(TideLineRecord record) =>
        record.Crossings.Count == 0 ? null : record.Crossings.Min(crossing => crossing.At);

    /// <summary>Civil days from the first crossing to an instant, in the record's zone; null before any crossing.</summary>
    public static int? SeaDay(TideLineRecord record, Instant at) =>
        SeaFrom(record) is { } from
            ? Period.DaysBetween(from.InZone(record.Zone).Date, at.InZone(record.Zone).Date)
            : null;

    /// <summary>
    /// The instant at which larvae of the run first were in a vessel: its first crossing, split or row. Null when
    /// nothing says so.
    /// </summary>
    public static Instant? From(TideLineRecord record, TideVessel vessel)
    {
        var starts = record
            .Crossings.Where(crossing => crossing.VesselId == vessel.Id)
            .Select(crossing => crossing.At)
            .ToList();
        if (vessel.SplitFrom is { } split)
        {
            starts.Add(split.At);
        }

        return starts switch
        {
            [] when vessel.Alive.Count > 0 => vessel.Alive[0].At,
            [] when vessel.Salinity.Count > 0 => vessel.Salinity[0].At,
            [] => null,
            _ => starts.Min(),
        };
    }

    /// <summary>The shares of the stages at an instant, straight between rows; empty without rows.</summary>
    public static IReadOnlyList<double> SharesAt(TideLineRecord record, Instant at)
    {
        var rows = record.Stages;
        if (rows.Count == 0 || at <= rows[0].At)
        {
            return rows.Count == 0 ? [] : rows[0].Shares;
        }

        for (var i = 1; i < rows.Count; i++)
        {
            if (at < rows[i].At)
            {
                var share = (at - rows[i - 1].At).TotalDays / (rows[i].At - rows[i - 1].At).TotalDays;
                return [.. rows[i - 1].Shares.Zip(rows[i].Shares, (a, b) => a + ((b - a) * share))];
            }
        }

        return rows[^1].Shares;
    }

    private static double Crossed(TideLineRecord record, TideVessel vessel) =>
        record
            .Crossings.Where(crossing => crossing.VesselId == vessel.Id)
            .Sum(crossing => crossing.Larvae.Middle);
}
