using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>The codes of the quantities every profile must hold, because a tool computes with them.</summary>
public static class QuantityCodes
{
    /// <summary>Degree-days from spawning to hatching above 0 degC.</summary>
    public const string EmbryoDegreeDays = "embryo-degree-days";

    /// <summary>Factor from the measured degree-days to the 5 and 95 % points of an ordinary brood.</summary>
    public const string EmbryoSpreadFactor = "embryo-spread-factor";

    /// <summary>Share of broods that develop at an odd pace.</summary>
    public const string EmbryoOddBroodShare = "embryo-odd-brood-share";

    /// <summary>The factor of broods that develop at an odd pace.</summary>
    public const string EmbryoOddSpreadFactor = "embryo-odd-spread-factor";

    /// <summary>Temperature at which the embryo's time was measured.</summary>
    public const string EmbryoReferenceTemperature = "embryo-reference-temperature";

    /// <summary>Base temperature of the linear model, with 5 and 95 % points.</summary>
    public const string EmbryoBaseTemperature = "embryo-base-temperature";

    /// <summary>Day the eyes show as a share of the day of hatching.</summary>
    public const string EyedShareOfHatchDay = "eyed-share-of-hatch-day";

    /// <summary>Time from pale eggs to hatching.</summary>
    public const string PaleLead = "pale-lead-days";

    /// <summary>Time from a new saddle to hatching.</summary>
    public const string SaddleLead = "saddle-lead-days";

    /// <summary>Larvae from one brood.</summary>
    public const string LarvaePerBrood = "larvae-per-brood";

    /// <summary>How long larvae live in fresh water.</summary>
    public const string LarvaFreshWater = "larva-fresh-water-days";

    /// <summary>Delay in fresh water planned for as lethal.</summary>
    public const string LarvaFreshWaterLethal = "larva-fresh-water-lethal-days";

    /// <summary>Salinities counted as brackish.</summary>
    public const string BrackishSalinity = "brackish-salinity";

    /// <summary>Longest time in brackish water while crossing.</summary>
    public const string BrackishLimit = "brackish-limit-minutes";

    /// <summary>Largest change of salinity in one step.</summary>
    public const string VesselSalinityStep = "vessel-salinity-step";

    /// <summary>Largest change of temperature in one step.</summary>
    public const string VesselTemperatureStep = "vessel-temperature-step";

    /// <summary>Salinities at which larvae complete.</summary>
    public const string LarvalSalinity = "larval-salinity";

    /// <summary>Salinity a larval vessel is made to.</summary>
    public const string LarvalSalinityTarget = "larval-salinity-target";

    /// <summary>Salinities a larval vessel is kept between.</summary>
    public const string LarvalSalinityBand = "larval-salinity-band";

    /// <summary>Temperatures at which larvae were tested.</summary>
    public const string LarvalTemperature = "larval-temperature";

    /// <summary>Temperature from which larvae are lost.</summary>
    public const string LarvalTemperatureLosses = "larval-temperature-losses";

    /// <summary>Time from hatching to juveniles.</summary>
    public const string LarvalDays = "larval-days";

    /// <summary>Larvae per litre.</summary>
    public const string LarvaePerLitre = "larvae-per-litre";

    /// <summary>Most un-ionised ammonia, as nitrogen.</summary>
    public const string AmmoniaNitrogenLimit = "ammonia-nitrogen-limit";

    /// <summary>Most nitrite, as nitrogen.</summary>
    public const string NitriteNitrogenLimit = "nitrite-nitrogen-limit";

    /// <summary>Least dissolved oxygen.</summary>
    public const string DissolvedOxygenLimit = "dissolved-oxygen-limit";

    /// <summary>Lowest and highest pH.</summary>
    public const string PhLimits = "ph-limits";

    /// <summary>What a profile must hold: the code, the unit its numbers stand in, and its parts.</summary>
    internal static ImmutableArray<RequiredQuantity> Required { get; } =
    [
        new(EmbryoDegreeDays, "Cel.d", "value"),
        new(EmbryoSpreadFactor, "{factor}", "value"),
        new(EmbryoOddBroodShare, "1", "value"),
        new(EmbryoOddSpreadFactor, "{factor}", "value"),
        new(EmbryoReferenceTemperature, "Cel", "value"),
        new(EmbryoBaseTemperature, "Cel", "value low high"),
        new(EyedShareOfHatchDay, "1", "low high"),
        new(PaleLead, "d", "value low high"),
        new(SaddleLead, "d", "value low high"),
        new(LarvaePerBrood, "{count}", "low high"),
        new(LarvaFreshWater, "d", "low high"),
        new(LarvaFreshWaterLethal, "d", "high"),
        new(BrackishSalinity, "{practical}", "low high"),
        new(BrackishLimit, "min", "high"),
        new(VesselSalinityStep, "{practical}", "high"),
        new(VesselTemperatureStep, "K", "high"),
        new(LarvalSalinity, "{practical}", "low high"),
        new(LarvalSalinityTarget, "{practical}", "value"),
        new(LarvalSalinityBand, "{practical}", "low high"),
        new(LarvalTemperature, "Cel", "low high"),
        new(LarvalTemperatureLosses, "Cel", "value"),
        new(LarvalDays, "d", "low high"),
        new(LarvaePerLitre, "/L", "value"),
        new(AmmoniaNitrogenLimit, "mg/L", "high"),
        new(NitriteNitrogenLimit, "mg/L", "high"),
        new(DissolvedOxygenLimit, "mg/L", "low"),
        new(PhLimits, "[pH]", "low high"),
    ];
}

/// <summary>A quantity a profile must hold.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Unit">The unit its numbers must stand in.</param>
/// <param name="Parts">The parts that must be there, parted by spaces.</param>
internal sealed record RequiredQuantity(string Code, string Unit, string Parts);
