using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Species;

public sealed partial class SpeciesProfile
{
    /// <summary>The salinity a larval vessel is made to, the keeper's choice included.</summary>
    public Salinity LarvalSalinityTarget => Salinity.FromPractical(Value(QuantityCodes.LarvalSalinityTarget));

    /// <summary>The salinities between which a larval vessel is kept, the keeper's choice included.</summary>
    public SalinityRange LarvalSalinityBand => Range(QuantityCodes.LarvalSalinityBand);

    /// <summary>The salinities at which larvae are known to complete.</summary>
    public SalinityRange LarvalSalinityCompleting => Range(QuantityCodes.LarvalSalinity);

    /// <summary>The salinities counted as brackish.</summary>
    public SalinityRange BrackishSalinity => Range(QuantityCodes.BrackishSalinity);

    /// <summary>The longest time larvae are let stand in brackish water while they cross.</summary>
    public Duration BrackishLimit => Span(QuantityCodes.BrackishLimit, High(QuantityCodes.BrackishLimit));

    /// <summary>The largest change of salinity in one step for a vessel with larvae.</summary>
    public double VesselStepPractical => High(QuantityCodes.VesselSalinityStep);

    /// <summary>The largest change of temperature in one step for a vessel with larvae.</summary>
    public TemperatureDifference VesselStepTemperature =>
        TemperatureDifference.FromCelsius(High(QuantityCodes.VesselTemperatureStep));

    /// <summary>The delay in fresh water that is planned for as lethal to larvae.</summary>
    public Duration LarvaFreshWaterLethal =>
        Span(QuantityCodes.LarvaFreshWaterLethal, High(QuantityCodes.LarvaFreshWaterLethal));

    /// <summary>The numbers of the embryo's thermal time.</summary>
    public EmbryoThermal EmbryoThermal =>
        new(
            Value(QuantityCodes.EmbryoDegreeDays),
            Value(QuantityCodes.EmbryoSpreadFactor),
            Probability.FromFraction(Value(QuantityCodes.EmbryoOddBroodShare)),
            Value(QuantityCodes.EmbryoOddSpreadFactor),
            Temperature.FromCelsius(Value(QuantityCodes.EmbryoReferenceTemperature)),
            Temperature.FromCelsius(Value(QuantityCodes.EmbryoBaseTemperature)),
            Temperature.FromCelsius(Low(QuantityCodes.EmbryoBaseTemperature)),
            Temperature.FromCelsius(High(QuantityCodes.EmbryoBaseTemperature))
        );

    /// <summary>What the signs on eggs and female say of the day of hatching.</summary>
    public HatchSigns HatchSigns =>
        new(
            Low(QuantityCodes.EyedShareOfHatchDay),
            High(QuantityCodes.EyedShareOfHatchDay),
            DayInterval(QuantityCodes.PaleLead),
            DayInterval(QuantityCodes.SaddleLead)
        );

    /// <summary>What the water of larvae must keep to.</summary>
    public SafetyLimits SafetyLimits =>
        new(
            Concentration.FromMilligramsPerLitre(High(QuantityCodes.AmmoniaNitrogenLimit)),
            Concentration.FromMilligramsPerLitre(High(QuantityCodes.NitriteNitrogenLimit)),
            Concentration.FromMilligramsPerLitre(Low(QuantityCodes.DissolvedOxygenLimit)),
            Low(QuantityCodes.PhLimits),
            High(QuantityCodes.PhLimits),
            Temperature.FromCelsius(Value(QuantityCodes.LarvalTemperatureLosses))
        );

    /// <summary>Larvae per litre to stock a larval vessel with.</summary>
    public double LarvaePerLitre => Value(QuantityCodes.LarvaePerLitre);

    /// <summary>The fewest days from hatching to juveniles that are reported.</summary>
    public double LarvalDaysLow => Days(QuantityCodes.LarvalDays, Low(QuantityCodes.LarvalDays));

    /// <summary>The most days from hatching to juveniles that are reported.</summary>
    public double LarvalDaysHigh => Days(QuantityCodes.LarvalDays, High(QuantityCodes.LarvalDays));

    // The reader has made sure that every code of QuantityCodes is there with the parts asked for.
    private double Value(string code) => Quantity(code).Value!.Value;

    private double Low(string code) => Quantity(code).Low!.Value;

    private double High(string code) => Quantity(code).High!.Value;

    private double Days(string code, double number) =>
        Quantity(code).Unit.Convert(number, ProfileUnit.Find("d")!);

    private Interval DayInterval(string code) =>
        Interval.FromPoints(Days(code, Low(code)), Days(code, Value(code)), Days(code, High(code)));

    private Duration Span(string code, double number) => Duration.FromDays(Days(code, number));

    private SalinityRange Range(string code) =>
        new(Salinity.FromPractical(Low(code)), Salinity.FromPractical(High(code)));
}

/// <summary>Two salinities, the low one first.</summary>
/// <param name="Low">The lowest salinity of the range.</param>
/// <param name="High">The highest salinity of the range.</param>
public sealed record SalinityRange(Salinity Low, Salinity High)
{
    /// <summary>Whether a salinity lies in the closed range.</summary>
    public bool Contains(Salinity salinity) => salinity >= Low && salinity <= High;
}

/// <summary>
/// The embryo's thermal time: one measured point, and how far around it one brood may lie. When the base is varied,
/// hold the reference days at the reference temperature, not the degree-days.
/// </summary>
/// <param name="DegreeDays">Degree-days from spawning to hatching above 0 degC.</param>
/// <param name="SpreadFactor">
/// Factor, 1 or more, down to the 5 % and up to the 95 % point of an ordinary brood.
/// </param>
/// <param name="OddShare">Share of broods that develop at an odd pace.</param>
/// <param name="OddSpreadFactor">The factor of those, 1 or more.</param>
/// <param name="ReferenceTemperature">The temperature it was measured at.</param>
/// <param name="BaseTemperature">The middle of the belief about the base.</param>
/// <param name="BaseTemperatureLow">The 5 % point of the true base.</param>
/// <param name="BaseTemperatureHigh">The 95 % point of the true base.</param>
public sealed record EmbryoThermal(
    double DegreeDays,
    double SpreadFactor,
    Probability OddShare,
    double OddSpreadFactor,
    Temperature ReferenceTemperature,
    Temperature BaseTemperature,
    Temperature BaseTemperatureLow,
    Temperature BaseTemperatureHigh
)
{
    /// <summary>
    /// Days from spawning to hatching at the reference temperature, in the source's own counting from
    /// 0 degC; none if a chosen reference is not above that.
    /// </summary>
    public double? ReferenceDays =>
        ReferenceTemperature.Celsius > 0 ? DegreeDays / ReferenceTemperature.Celsius : null;
}

/// <summary>What signs say of the day of hatching.</summary>
/// <param name="EyedShareLow">Least share of the time to hatching at which eyes show.</param>
/// <param name="EyedShareHigh">Greatest share of the time to hatching at which eyes show.</param>
/// <param name="PaleLeadDays">Days from pale eggs to hatching.</param>
/// <param name="SaddleLeadDays">Days from a new saddle to hatching.</param>
public sealed record HatchSigns(
    double EyedShareLow,
    double EyedShareHigh,
    Interval PaleLeadDays,
    Interval SaddleLeadDays
);

/// <summary>What the water of larvae must keep to.</summary>
/// <param name="UnionisedAmmoniaNitrogen">Most un-ionised ammonia, as nitrogen.</param>
/// <param name="NitriteNitrogen">Most nitrite, as nitrogen.</param>
/// <param name="DissolvedOxygen">Least dissolved oxygen.</param>
/// <param name="PhLow">Lowest pH.</param>
/// <param name="PhHigh">Highest pH.</param>
/// <param name="LossesFrom">The temperature from which larvae are lost.</param>
public sealed record SafetyLimits(
    Concentration UnionisedAmmoniaNitrogen,
    Concentration NitriteNitrogen,
    Concentration DissolvedOxygen,
    double PhLow,
    double PhHigh,
    Temperature LossesFrom
);
