using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Review;

/// <summary>Says that readings lay beyond a limit.</summary>
internal static class BeyondRemarks
{
    /// <summary>The readings of one quantity that lay beyond a limit, with the worst of them.</summary>
    /// <param name="vessel">Where.</param>
    /// <param name="beyond">Those beyond, one at least.</param>
    /// <param name="readings">How many there are in all.</param>
    public static Remark Of(VesselId vessel, IReadOnlyList<WaterReading> beyond, int readings)
    {
        var above = beyond[0].IsAbove;
        var worst = above ? beyond.MaxBy(it => it.Value)! : beyond.MinBy(it => it.Value)!;
        var limit = (above ? worst.High : worst.Low) ?? 0;
        var (where, number, all) = (
            new Argument("vessel", vessel),
            new Argument("beyond", beyond.Count),
            new Argument("readings", readings)
        );
        return beyond[0].Quantity switch
        {
            LimitedQuantity.Salinity => new Remark(
                above ? "for-salinity-above" : "for-salinity-below",
                where,
                number,
                all,
                new Argument("worstPpt", worst.Value),
                new Argument("limitPpt", limit)
            ),
            LimitedQuantity.Temperature => new Remark(
                above ? "for-temperature-above" : "for-temperature-below",
                where,
                number,
                all,
                new Argument("worstCelsius", worst.Value),
                new Argument("limitCelsius", limit)
            ),
            LimitedQuantity.Oxygen => new Remark(
                "for-oxygen-below",
                where,
                number,
                all,
                new Argument("worstMilligramsPerLitre", worst.Value),
                new Argument("limitMilligramsPerLitre", limit)
            ),
            LimitedQuantity.Nitrite => new Remark(
                "for-nitrite-above",
                where,
                number,
                all,
                new Argument("worstMilligramsPerLitre", worst.Value),
                new Argument("limitMilligramsPerLitre", limit)
            ),
            _ => new Remark(
                "for-ammonia-above",
                where,
                number,
                all,
                new Argument("worstMilligramsPerLitre", worst.Value),
                new Argument("limitMilligramsPerLitre", limit)
            ),
        };
    }
}
