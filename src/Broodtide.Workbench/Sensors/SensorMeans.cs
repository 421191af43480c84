using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// What of a sensor counts as observed of the water it stands in: of every six hours of UTC the mean of the hours' means, and
/// of the hours since the last six each by itself. Left out are hours in which it moved from one vessel to another, hours with
/// a value that no living water has, and every hour for which it was stuck. Temperature and salinity only.
/// </summary>
public static class SensorMeans
{
    /// <summary>So far back it counts.</summary>
    public const int Days = 60;

    // Four a day keep the course of evaporation; more of one sensor say little that these do not.
    private const int BlockHours = 6;
    private const int Decimals = 4;
    private const long HourMilliseconds = 3_600_000;

    /// <summary>The means, by time and vessel.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="hours">Its hours of the last <see cref="Days"/> days, by time.</param>
    /// <param name="now">The time; hours that are not over do not count.</param>
    public static IReadOnlyList<MeanSeen> Of(Sensor sensor, IReadOnlyList<HourSummary> hours, Instant now)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        ArgumentNullException.ThrowIfNull(hours);
        if (
            sensor.Placements.Count == 0
            || sensor.About.Dimension
                is not (Domain.Journal.Dimension.Temperature or Domain.Journal.Dimension.Salinity)
        )
        {
            return [];
        }

        var stuck = Stuck(sensor.About, hours);
        var means = new List<MeanSeen>();
        foreach (
            var block in hours
                .Where((hour, at) => !stuck[at] && hour.From + Duration.FromHours(1) <= now)
                .Where(hour => IsPlausible(sensor.About.Unit, hour))
                .Select(hour => (Hour: hour, Vessel: VesselThrough(sensor, hour.From)))
                .Where(placed => placed.Vessel is not null)
                .GroupBy(placed => (Begins: BlockOf(placed.Hour.From), placed.Vessel))
        )
        {
            HourSummary[] its = [.. block.Select(placed => placed.Hour)];
            var vessel = block.Key.Vessel!.Value.Value;
            if (block.Key.Begins + Duration.FromHours(BlockHours) <= now)
            {
                means.Add(Mean(its, vessel, isOpen: false));
            }
            else
            {
                means.AddRange(its.Select(hour => Mean([hour], vessel, isOpen: true)));
            }
        }

        return means;
    }

    private static MeanSeen Mean(HourSummary[] hours, Guid vessel, bool isOpen)
    {
        var mean = hours.Average(hour => hour.Mean);
        var between = hours.Average(hour => (hour.Mean - mean) * (hour.Mean - mean));
        // A quarter of what an hour spans is about its standard deviation: water that was changed, or a loose plug.
        var within = hours.Average(hour => (hour.Highest - hour.Lowest) / 4);
        return new(
            (long)hours.Average(hour => hour.From.ToUnixTimeMilliseconds()) + (HourMilliseconds / 2),
            Math.Round(mean, Decimals),
            Math.Round(Math.Sqrt(between + (within * within)), Decimals),
            hours.Length,
            vessel,
            isOpen
        );
    }

    // It must have stood in one vessel from the hour's beginning to its end.
    private static Domain.VesselId? VesselThrough(Sensor sensor, Instant from)
    {
        var vessel = sensor.VesselAt(from);
        var to = from + Duration.FromHours(1);
        return sensor.Placements.Any(placement => placement.From > from && placement.From < to)
            ? null
            : vessel;
    }

    private static bool IsPlausible(string unit, HourSummary hour) =>
        SensorPlausible.Range(unit) is not var (lowest, highest)
        || (hour.Lowest >= lowest && hour.Highest <= highest);

    private static bool[] Stuck(SensorAbout about, IReadOnlyList<HourSummary> hours)
    {
        var stuck = new bool[hours.Count];
        if (SensorPlausible.MayStand(about.Unit, about.Resolution) is not { } mayStand)
        {
            return stuck;
        }

        for (var first = 0; first < hours.Count; )
        {
            var last = first;
            while (
                last < hours.Count
                && hours[last].Lowest == hours[first].Lowest
                && hours[last].Highest == hours[first].Lowest
            )
            {
                last++;
            }

            if (last > first && hours[last - 1].From + Duration.FromHours(1) - hours[first].From > mayStand)
            {
                Array.Fill(stuck, true, first, last - first);
            }

            first = Math.Max(last, first + 1);
        }

        return stuck;
    }

    private static Instant BlockOf(Instant at)
    {
        var hour = at.ToUnixTimeSeconds() / 3600;
        return Instant.FromUnixTimeSeconds(hour / BlockHours * BlockHours * 3600);
    }
}
