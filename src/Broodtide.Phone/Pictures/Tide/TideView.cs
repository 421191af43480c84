using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The span of time that a tide line shows.</summary>
public sealed record TideView(Instant From, Instant To)
{
    public const double WeeksDays = 28;
    public const double DaysDays = 5;

    public static TideView Of(TideLineRecord record, TideFrame frame)
    {
        var whole = Whole(record);
        if (frame.Zoom == TideZoom.WholeRun)
        {
            return whole;
        }

        var days = frame.Zoom == TideZoom.Weeks ? WeeksDays : DaysDays;
        var at = frame.Middle ?? (record.Ends.Count > 0 ? record.Ends.Max(end => end.At) : record.Now);
        var from = at - Duration.FromDays(days * 2 / 3);
        return new(from, from + Duration.FromDays(days));
    }

    /// <summary>From a day before she was first seen berried to six days after the last return may come.</summary>
    public static TideView Whole(TideLineRecord record)
    {
        var starts = record
            .Crossings.Select(crossing => crossing.At - Duration.FromDays(4))
            .Concat(record.Vessels.SelectMany(vessel => vessel.Alive.Take(1)).Select(row => row.At))
            .Concat(record.Brood.Marks.Select(mark => mark.From))
            .Append(record.Now);
        var first = (record.Brood.FirstSeenBerried ?? starts.Min()) - Duration.FromDays(1);
        if (record.Ends.Count > 0)
        {
            return new(first, record.Ends.Max(end => end.At) + Duration.FromDays(15));
        }

        var last = record.Return switch
        {
            { Forecast: { } forecast } => forecast.Late + Duration.FromDays(6),
            { Seen: [.., var seen] } => Instant.Max(seen, record.Now) + Duration.FromDays(6),
            _ => first + Duration.FromDays(90),
        };
        var hatch = record.Hatch?.Late ?? record.Now;
        return new(first, Instant.Max(last, Instant.Max(record.Now, hatch) + Duration.FromDays(14)));
    }
}
