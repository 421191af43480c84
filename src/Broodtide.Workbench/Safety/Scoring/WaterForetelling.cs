using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using NodaTime;
using NodaTime.Text;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety.Scoring;

/// <summary>
/// What is foretold of a vessel's water today, to be written down once and held against what is measured later: every
/// quantity that was measured there within two weeks, as a keeper's means would read it.
/// </summary>
public static class WaterForetelling
{
    private const int HoursApart = 6;
    private const int MeasuredWithinHours = 14 * 24;
    private const double Point95 = 1.6448536269514722;

    /// <summary>The forecast of today; none where it is written already, or nothing was measured lately.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="run">The vessel's twin.</param>
    /// <param name="zone">Where the day begins.</param>
    /// <param name="engine">Name and version of the software.</param>
    public static WaterForetold? Unwritten(House house, VesselRun run, DateTimeZone zone, string engine)
    {
        var story = run.Story;
        var from = story.At(story.NowHour);
        var day = LocalDatePattern.Iso.Format(from.InZone(zone).Date);
        var told = WaterScoring.Foretold(house, story.Vessel);
        if (told.Any(known => string.Equals(known.Fact.Day, day, StringComparison.Ordinal)))
        {
            return null;
        }

        var measured = story
            .Readings.Where(read => read.Reading.Hour >= story.NowHour - MeasuredWithinHours)
            .Select(read => read.Reading)
            .OfType<VesselReading.Measured>()
            .Select(read => read.Quantity)
            .ToHashSet();
        var points = QuantityUnits
            .All.Where(known => measured.Contains(known.Quantity))
            .SelectMany(known => Points(run.Ahead, known.Quantity, known.Code, known.Unit))
            .ToList();
        return points.Count > 0
            ? new WaterForetold(story.Vessel, day, engine, KnownUntil(house, from), from, points)
            : null;
    }

    private static IEnumerable<ForetoldPoint> Points(
        VesselTraces ahead,
        VesselQuantity quantity,
        string code,
        string unit
    )
    {
        for (var hour = HoursApart; hour <= ahead.Hours; hour += HoursApart)
        {
            var value = AsRead(quantity, ahead.Quantiles(quantity, hour));
            yield return new(code, hour, unit, value.Low, value.Middle, value.High);
        }
    }

    // What will be read is the water and the error of the reading.
    private static Interval AsRead(VesselQuantity quantity, Interval value)
    {
        var usual = VesselReading.Measured.AtHome(0, quantity, Math.Max(0, value.Middle));
        var error = Point95 * Math.Sqrt((usual.Sd * usual.Sd) + Math.Pow(usual.Share * value.Middle, 2));
        return Interval.FromPoints(
            Round(Math.Max(0, value.Middle - Beside(value.Middle - value.Low))),
            Round(value.Middle),
            Round(value.Middle + Beside(value.High - value.Middle))
        );

        double Beside(double side) => Math.Sqrt((side * side) + (error * error));
    }

    // Four figures are more than any of it is sure of, and keep the journal small.
    private static double Round(double value) =>
        value == 0
            ? 0
            : Math.Round(value, Math.Clamp(3 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 12));

    private static Instant KnownUntil(House house, Instant from) =>
        house
            .Account.Entries.Select(entry => entry.Envelope.Written)
            .Where(written => written <= from + Duration.FromHours(1))
            .DefaultIfEmpty(from)
            .Max();
}
