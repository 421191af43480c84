using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Statistics;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety.Scoring;

/// <summary>One reading held against one forecast that was made before it.</summary>
/// <param name="Quantity">Of what.</param>
/// <param name="FromForecast">When the forecast was made.</param>
/// <param name="ReadAt">When it was read, an hour of the vessel's clock.</param>
/// <param name="Read">What was read.</param>
/// <param name="Foretold">What was foretold for that hour.</param>
/// <param name="Score">Continuous ranked probability score of the forecast, in the unit of the quantity; less is better.</param>
/// <param name="PlainScore">
/// The same of persistence: that it will be as it was last read before the forecast; none where nothing was read before.
/// </param>
public sealed record ScoredReading(
    VesselQuantity Quantity,
    Instant FromForecast,
    Instant ReadAt,
    double Read,
    Interval Foretold,
    double Score,
    double? PlainScore
);

/// <summary>How well the forecasts of one quantity did.</summary>
/// <param name="Quantity">Of what.</param>
/// <param name="Number">Readings that could be held against forecast and persistence both.</param>
/// <param name="Inside">How many of them lay inside the 90 % interval.</param>
/// <param name="Score">Mean score of the forecasts.</param>
/// <param name="PlainScore">Mean score of persistence, over the same readings.</param>
public sealed record QuantityScore(
    VesselQuantity Quantity,
    int Number,
    int Inside,
    double Score,
    double PlainScore
);

/// <summary>Holds what was foretold of a vessel's water against what was read there later.</summary>
public static class WaterScoring
{
    /// <summary>The readings of the standing water that a forecast was made for, oldest forecast first.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="story">The vessel's story.</param>
    public static ImmutableArray<ScoredReading> Of(House house, VesselStory story)
    {
        var read = story
            .Readings.Select(learned => (learned.Entry, Reading: learned.Reading as VesselReading.Measured))
            .Where(learned => learned.Reading is not null)
            .Select(learned =>
                (
                    learned.Reading!.Quantity,
                    At: story.At(learned.Reading.Hour),
                    learned.Reading.Value,
                    Written: WrittenAt(house, learned.Entry)
                )
            )
            .ToList();
        var scored = ImmutableArray.CreateBuilder<ScoredReading>();
        foreach (var (forecast, _) in Foretold(house, story.Vessel))
        {
            foreach (var points in forecast.Points.GroupBy(point => point.Quantity, StringComparer.Ordinal))
            {
                if (QuantityUnits.Find(points.Key) is not { } quantity)
                {
                    continue;
                }

                double? before = read.Where(it =>
                        it.Quantity == quantity && it.At <= forecast.From && it.Written <= forecast.KnownUntil
                    )
                    .Select(it => (double?)it.Value)
                    .LastOrDefault();
                List<ForetoldPoint> corners = [.. points.OrderBy(point => point.Hours)];
                foreach (
                    var later in read.Where(it => it.Quantity == quantity && it.Written > forecast.KnownUntil)
                )
                {
                    if (At(corners, (later.At - forecast.From).TotalHours) is { } foretold)
                    {
                        scored.Add(
                            new(
                                quantity,
                                forecast.From,
                                later.At,
                                later.Value,
                                foretold,
                                RankedProbabilityScore.Halves(foretold, later.Value),
                                before is { } last ? Math.Abs(last - later.Value) : null
                            )
                        );
                    }
                }
            }
        }

        return scored.ToImmutable();
    }

    /// <summary>The scores by quantity, over the readings that persistence could foretell too.</summary>
    /// <param name="readings">The readings.</param>
    public static ImmutableArray<QuantityScore> ByQuantity(IEnumerable<ScoredReading> readings) =>
        [
            .. readings
                .Where(reading => reading.PlainScore is not null)
                .GroupBy(reading => reading.Quantity)
                .OrderBy(group => group.Key)
                .Select(group => new QuantityScore(
                    group.Key,
                    group.Count(),
                    group.Count(reading => reading.Foretold.Contains(reading.Read)),
                    group.Average(reading => reading.Score),
                    group.Average(reading => reading.PlainScore!.Value)
                )),
        ];

    /// <summary>The forecasts that count, one a day: the earliest written.</summary>
    internal static IReadOnlyList<(WaterForetold Fact, Instant Written)> Foretold(
        House house,
        VesselId vessel
    ) =>
        [
            .. house
                .Account.About(Subject.Of(vessel))
                .Where(occurrence => occurrence.Fact is WaterForetold)
                .GroupBy(occurrence => ((WaterForetold)occurrence.Fact).Day, StringComparer.Ordinal)
                .Select(day => day.MinBy(occurrence => occurrence.Told.Envelope.Written)!)
                .Select(occurrence => ((WaterForetold)occurrence.Fact, occurrence.Told.Envelope.Written))
                .OrderBy(known => known.Item1.From),
        ];

    private static Instant WrittenAt(House house, EntryId entry) =>
        house.Account.Find(entry)?.Envelope.Written ?? Instant.MaxValue;

    // Straight lines between the points; beyond the last nothing was said. Before the first it is taken as it says.
    private static Interval? At(List<ForetoldPoint> points, double hours)
    {
        if (hours <= 0 || points.Count == 0 || hours > points[^1].Hours)
        {
            return null;
        }

        var right = points.FindIndex(point => point.Hours >= hours);
        var (to, from) = (points[right], points[Math.Max(0, right - 1)]);
        var part = to.Hours > from.Hours ? (hours - from.Hours) / (to.Hours - from.Hours) : 0;
        return Interval.FromPoints(
            from.Low + (part * (to.Low - from.Low)),
            from.Middle + (part * (to.Middle - from.Middle)),
            from.High + (part * (to.High - from.High))
        );
    }
}
