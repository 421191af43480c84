using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>
/// A probe that shows one value again and again while other readings of the same water move. A test kit that shows
/// nothing again and again is no such thing, nor is a thermometer in heated water.
/// </summary>
/// <param name="Remark">Which probe, what it shows, since when.</param>
/// <param name="Entries">Its readings, after the first of the row, which nobody should learn from.</param>
internal sealed record StuckProbe(Remark Remark, IReadOnlyList<EntryId> Entries)
{
    // Practice, no source: oxygen and pH of living water never stand for two days to the last figure.
    private const int LeastReadings = 5;
    private static readonly Duration LeastTime = Duration.FromHours(36);

    public static IReadOnlyList<StuckProbe> Among(House house, IReadOnlyList<Occurrence> told)
    {
        var found = new List<StuckProbe>();
        var readings = told.Where(occurrence => occurrence.Fact is ReadingTaken).ToList();
        var probes = readings
            .Where(occurrence => MayStick(house, (ReadingTaken)occurrence.Fact))
            .GroupBy(occurrence =>
                (
                    ((ReadingTaken)occurrence.Fact).Instrument,
                    ((ReadingTaken)occurrence.Fact).Value.KnownUnit()?.Dimension
                )
            );
        foreach (var probe in probes)
        {
            var row = new List<Occurrence>();
            foreach (var occurrence in probe)
            {
                if (row.Count > 0 && Value(row[0]) != Value(occurrence))
                {
                    Judge(row);
                    row.Clear();
                }

                row.Add(occurrence);
            }

            Judge(row);
        }

        return found;

        void Judge(List<Occurrence> row)
        {
            if (
                row.Count < LeastReadings
                || row[^1].Happened.Middle - row[0].Happened.Middle < LeastTime
                || !OthersMoved(readings, row)
            )
            {
                return;
            }

            var reading = (ReadingTaken)row[0].Fact;
            var (from, times) = (row[0].Happened.Middle, (double)row.Count);
            found.Add(
                new(
                    reading.Instrument is { } device
                        ? new Remark(
                            "probe-stuck",
                            new("instrument", device),
                            new("value", reading.Value.Value),
                            new("unit", reading.Value.Unit),
                            new("times", times),
                            new("since", from)
                        )
                        : new Remark(
                            "readings-stuck",
                            new("value", reading.Value.Value),
                            new("unit", reading.Value.Unit),
                            new("times", times),
                            new("since", from)
                        ),
                    [.. row.Skip(1).Select(occurrence => occurrence.Id)]
                )
            );
        }
    }

    private static bool MayStick(House house, ReadingTaken reading) =>
        reading.Value.KnownUnit()?.Dimension is Dimension.Oxygen or Dimension.Acidity
        && (
            reading.Instrument is not { } device
            || house.Instrument(device).Description?.Kind is not InstrumentKind.TestKit
        );

    private static bool OthersMoved(List<Occurrence> readings, List<Occurrence> row)
    {
        var stuck = ((ReadingTaken)row[0].Fact).Value.KnownUnit()?.Dimension;
        return readings
            .Where(occurrence =>
                occurrence.Happened.Middle >= row[0].Happened.Middle
                && occurrence.Happened.Middle <= row[^1].Happened.Middle
                && ((ReadingTaken)occurrence.Fact).Value.KnownUnit()?.Dimension != stuck
            )
            .GroupBy(occurrence => ((ReadingTaken)occurrence.Fact).Value.KnownUnit()?.Dimension)
            .Any(others => others.Select(Value).Distinct().Count() >= 3);
    }

    private static double Value(Occurrence occurrence) => ((ReadingTaken)occurrence.Fact).Value.Value;
}
