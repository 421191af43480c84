using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Water;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety;

/// <summary>A number that was read lately and that the twin could not explain.</summary>
/// <param name="Hour">Hour of the clock.</param>
/// <param name="Quantity">The quantity of the twin that it speaks of.</param>
/// <param name="Read">What was read.</param>
internal sealed record OddNumber(int Hour, VesselQuantity Quantity, VesselReading.Measured Read)
{
    private const int FreshHours = 36;

    /// <summary>The newest reading of each quantity, where it is fresh and odd.</summary>
    public static IReadOnlyList<OddNumber> Newest(VesselRun run)
    {
        var odd = run.Odd.Select(reading => reading.Entry).ToHashSet();
        return
        [
            .. run
                .Story.Readings.Where(it => it.Reading is VesselReading.Measured)
                .GroupBy(it => ((VesselReading.Measured)it.Reading).Quantity)
                .Select(group => group.Last())
                .Where(it => odd.Contains(it.Entry) && it.Reading.Hour >= run.Story.NowHour - FreshHours)
                .Select(it => new OddNumber(
                    it.Reading.Hour,
                    Of(((VesselReading.Measured)it.Reading).Quantity),
                    (VesselReading.Measured)it.Reading
                )),
        ];
    }

    /// <summary>What it says of the quantity, with the error of its method; ammonia at the pH that the twin supposes.</summary>
    /// <param name="run">The twin.</param>
    public Interval Value(VesselRun run)
    {
        var factor = 1.0;
        if (Quantity is VesselQuantity.UnionisedAmmonia)
        {
            var hour = run.Story.Scene.Hours[run.Story.NowHour];
            var ph = Math.Clamp(run.Ahead.Quantiles(VesselQuantity.PHNbs, 0).Middle, 0, 14);
            factor = Ammonia.Fraction(hour.Salinity, hour.Temperature, ph).Value.Value;
        }

        var sd = Math.Sqrt((Read.Sd * Read.Sd) + (Read.Share * Read.Share * Read.Value * Read.Value));
        return Interval.FromNormal(factor * Read.Value, Math.Max(1e-9, factor * sd));
    }

    private static VesselQuantity Of(VesselQuantity read) =>
        read is VesselQuantity.Tan ? VesselQuantity.UnionisedAmmonia : read;
}
