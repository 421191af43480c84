using Broodtide.Science.Estimation;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>When a vessel leaves its band if nothing is done, and the fresh water that brings it back.</summary>
internal static class LookingAhead
{
    private const double StepDays = 0.125;
    private const double LookAheadDays = 21;

    // A top-up is told this long before one chance in twenty that the edge is passed.
    private static readonly Duration Warning = Duration.FromHours(36);

    // No portion moves the salinity by more than this at once: practice, no source.
    private const double GentlestStepPpt = 1;

    public static LeavingBand? Leaving(WaterSaltFilter filter, int slot, SalinityBand band, Instant now)
    {
        // Evaporation only makes salter, so only the upper edge is left in time.
        var limit = band.Upper.Practical;
        Span<double> levels = [0.05, 0.5, 0.95];
        Span<double> days = [double.NaN, double.NaN, double.NaN];
        var ahead = filter.Copy();
        var before = Above(ahead, slot, limit);
        for (var i = 0; i < 3; i++)
        {
            if (before >= levels[i])
            {
                days[i] = 0;
            }
        }

        for (var t = 0.0; t < LookAheadDays && double.IsNaN(days[2]); t += StepDays)
        {
            ahead.Advance(StepDays);
            var after = Math.Max(before, Above(ahead, slot, limit));
            for (var i = 0; i < 3; i++)
            {
                if (double.IsNaN(days[i]) && after >= levels[i])
                {
                    var share = after > before ? (levels[i] - before) / (after - before) : 1;
                    days[i] = t + (StepDays * share);
                }
            }

            before = after;
        }

        return double.IsNaN(days[0])
            ? null
            : new LeavingBand(true, limit, At(now, days[0])!.Value, At(now, days[1]), At(now, days[2]));
    }

    public static TopUp? TopUp(
        WaterSaltFilter filter,
        int slot,
        LedgerPage page,
        SalinityBand band,
        LeavingBand? leaving,
        Instant now
    )
    {
        var salinity = filter.ExpectSalinity(slot).Mean;
        if (leaving is null || leaving.Earliest > now + Warning || salinity <= band.Target.Practical)
        {
            return null;
        }

        var litres = filter.ExpectVolume(slot).Mean;
        var massKg = litres * Density(salinity, page.Temperature);
        // Fresh water of mass m (S0 / S1 - 1) lowers S0 to S1.
        var wanted = massKg * ((salinity / band.Target.Practical) - 1) / Density(0, page.Temperature);
        var room = page.Vessel.Capacity is { } line ? Math.Max(0, line.Litres - litres) : wanted;
        var given = Math.Min(wanted, room);
        if (given < 0.001)
        {
            return null;
        }

        var after = filter.Copy();
        after.PourIn(slot, Volume.FromLitres(given), 0.03 * given, default, 0);
        var lowered = salinity - after.ExpectSalinity(slot).Mean;
        var portions = Math.Max(1, (int)Math.Ceiling((lowered - 1e-9) / GentlestStepPpt));
        return new TopUp(
            Volume.FromLitres(given / portions),
            portions,
            page.Temperature,
            after.ExpectSalinity(slot).Interval,
            after.ExpectVolume(slot).Interval,
            room < wanted
        );
    }

    private static double Above(WaterSaltFilter filter, int slot, double limit)
    {
        var salinity = filter.ExpectSalinity(slot);
        return salinity.Sd <= 0
            ? salinity.Mean > limit
                ? 1
                : 0
            : MathNet.Numerics.Distributions.Normal.CDF(0, 1, (salinity.Mean - limit) / salinity.Sd);
    }

    private static double Density(double salinity, Temperature temperature) =>
        Science
            .Water.SeawaterDensity.Eos80(Salinity.FromPractical(Math.Max(0, salinity)), temperature)
            .Value.KilogramsPerCubicMetre / 1000;

    private static Instant? At(Instant now, double days) =>
        double.IsNaN(days) ? null : now + Duration.FromDays(days);
}
