using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>The readings of one sensor in one hour of UTC.</summary>
/// <param name="From">The beginning of the hour.</param>
/// <param name="Lowest">The least.</param>
/// <param name="Mean">The plain mean of the readings.</param>
/// <param name="Highest">The greatest.</param>
/// <param name="Count">How many there were: 1 or more.</param>
public sealed record HourSummary(Instant From, double Lowest, double Mean, double Highest, int Count)
{
    private const long HourSeconds = 3600;

    /// <summary>The hour that an instant lies in.</summary>
    /// <param name="instant">Any instant.</param>
    public static Instant HourOf(Instant instant)
    {
        var seconds = instant.ToUnixTimeSeconds();
        return Instant.FromUnixTimeSeconds(seconds - (((seconds % HourSeconds) + HourSeconds) % HourSeconds));
    }

    /// <summary>The hours of some readings, in the order of time; an hour without a reading is left out.</summary>
    /// <param name="readings">Readings of one sensor, in any order.</param>
    public static IReadOnlyList<HourSummary> Of(IEnumerable<RawReading> readings) =>
        [
            .. readings
                .GroupBy(reading => HourOf(reading.At))
                .OrderBy(hour => hour.Key)
                .Select(hour =>
                {
                    var (lowest, highest, sum, count) = (double.MaxValue, double.MinValue, 0.0, 0);
                    foreach (var reading in hour)
                    {
                        lowest = Math.Min(lowest, reading.Value);
                        highest = Math.Max(highest, reading.Value);
                        sum += reading.Value;
                        count++;
                    }

                    // Rounding must not carry the mean out of its own hour.
                    return new HourSummary(
                        hour.Key,
                        lowest,
                        Math.Clamp(sum / count, lowest, highest),
                        highest,
                        count
                    );
                }),
        ];
}
