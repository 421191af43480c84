namespace Broodtide.Science.Development;

/// <summary>The stretch of time whose assumed temperature matters most to a forecast.</summary>
public enum AssumedStretch
{
    /// <summary>No stretch was assumed.</summary>
    None,

    /// <summary>The time from spawning to the first reading, or gaps between readings.</summary>
    Past,

    /// <summary>The time from the last reading to the hatch.</summary>
    Future,
}

/// <summary>What a hatch forecast owes to temperatures that were assumed instead of read.</summary>
/// <param name="ReadDays">Days between spawning and hatch within a day and a half of a reading.</param>
/// <param name="AssumedPastDays">Other days up to the last reading.</param>
/// <param name="AssumedFutureDays">Days after the last reading.</param>
/// <param name="MattersMost">The assumed stretch that moves the forecast most.</param>
/// <param name="DaysEarlierPerCelsius">
/// Days by which the hatch comes earlier if that stretch is one degree Celsius warmer than assumed; 0 or more.
/// </param>
/// <param name="SdDays">Days that one standard deviation of that stretch's temperature is worth; 0 or more.</param>
public readonly record struct TemperatureReliance(
    double ReadDays,
    double AssumedPastDays,
    double AssumedFutureDays,
    AssumedStretch MattersMost,
    double DaysEarlierPerCelsius,
    double SdDays
)
{
    private const double NearReadingDays = 1.5;
    private const double Step = 0.25;

    internal static TemperatureReliance Of(
        EmbryoPrior prior,
        BroodEvidence evidence,
        TemperaturePath path,
        double spawningDay,
        double hatchDay
    )
    {
        double[] readDays = [.. evidence.Temperatures.Select(reading => reading.Day).Order()];
        var last = readDays.Length == 0 ? double.NegativeInfinity : readDays[^1] + NearReadingDays;
        double read = 0;
        var past = default(Stretch);
        var future = default(Stretch);
        for (var day = spawningDay + (Step / 2); day < hatchDay; day += Step)
        {
            if (IsNear(readDays, day))
            {
                read += Step;
            }
            else if (day > last && readDays.Length > 0)
            {
                future = future.With(Step, path.SdAt(day));
            }
            else
            {
                past = past.With(Step, path.SdAt(day));
            }
        }

        var above = Math.Max(path.At(hatchDay, 0) - prior.BaseCelsius, EmbryoPrior.SlowestCelsiusAboveBase);
        var most = past.SdDays >= future.SdDays ? past : future;
        return new(
            read,
            past.Days,
            future.Days,
            most.Days <= 0 ? AssumedStretch.None
                : past.SdDays >= future.SdDays ? AssumedStretch.Past
                : AssumedStretch.Future,
            most.Days / above,
            most.SdDays / above
        );
    }

    private static bool IsNear(double[] ordered, double day)
    {
        var index = Array.BinarySearch(ordered, day);
        index = index < 0 ? ~index : index;
        return (index < ordered.Length && ordered[index] - day <= NearReadingDays)
            || (index > 0 && day - ordered[index - 1] <= NearReadingDays);
    }

    /// <summary>Days of a stretch, and the sum of days times standard deviation in degC.</summary>
    private readonly record struct Stretch(double Days, double SdDays)
    {
        internal Stretch With(double days, double sdCelsius) => new(Days + days, SdDays + (days * sdCelsius));
    }
}
