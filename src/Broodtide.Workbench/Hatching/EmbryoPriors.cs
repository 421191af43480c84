using Broodtide.Science.Development;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Hatching;

/// <summary>What a species profile believes of its eggs, in the form the forecast works with.</summary>
public static class EmbryoPriors
{
    // A chosen factor of exactly one would say that all broods are alike.
    private const double LeastLogSd = 0.01;

    /// <summary>The prior of a profile, the keeper's choices included.</summary>
    public static EmbryoPrior Of(SpeciesProfile profile)
    {
        var thermal = profile.EmbryoThermal;
        var reference = Math.Clamp(thermal.ReferenceTemperature.Celsius, 1, 45);
        // Only a chosen reference outside all water gets here without days.
        var days = Math.Clamp(thermal.ReferenceDays ?? (thermal.DegreeDays / reference), 0.5, 200);
        var signs = profile.HatchSigns;
        var odd = thermal.OddShare.Value;
        List<RequirementPart> parts = [];
        if (odd < 1)
        {
            parts.Add(Part(1 - odd, days, thermal.SpreadFactor));
        }

        if (odd > 0)
        {
            parts.Add(Part(odd, days, thermal.OddSpreadFactor));
        }

        return new EmbryoPrior
        {
            ReferenceTemperature = Temperature.FromCelsius(reference),
            Requirement = parts,
            BaseCelsius = Math.Clamp(thermal.BaseTemperature.Celsius, -20, reference - 2),
            BaseSdCelsius = Math.Clamp(
                (thermal.BaseTemperatureHigh.Celsius - thermal.BaseTemperatureLow.Celsius)
                    / (2 * Interval.StandardNormal95),
                0,
                10
            ),
            EyedRatio = Range(signs.EyedShareLow, signs.EyedShareHigh, 0.05, 1),
            PaleLeadDays = Middle(signs.PaleLeadDays),
            SaddleLeadDays = Middle(signs.SaddleLeadDays),
        };
    }

    private static RequirementPart Part(double weight, double days, double factor) =>
        new(
            weight,
            LognormalSpread.FromMedian(
                days,
                Math.Clamp(Math.Log(Math.Max(1, factor)) / Interval.StandardNormal95, LeastLogSd, 3)
            )
        );

    private static LognormalSpread Middle(Interval days)
    {
        var range = Range(days.Low, days.High, 0.05, 60);
        return LognormalSpread.FromMedian(Math.Clamp(days.Middle, 0.05, 60), range.LogSd);
    }

    private static LognormalSpread Range(double low, double high, double least, double most)
    {
        var from = Math.Clamp(low, least, most);
        return LognormalSpread.FromRange(from, Math.Clamp(high, from, most));
    }
}
