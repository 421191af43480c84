using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>Checks what a keeper wishes before anything is computed from it.</summary>
internal static class Wishes
{
    /// <summary>Highest practical salinity of the density formula EOS-80.</summary>
    public const double HighestSalinity = 42;

    /// <summary>Lowest temperature taken, a hundredth inside the range of EOS-80 (-2 degC, IPTS-68).</summary>
    public const double LowestCelsius = -1.99;

    /// <summary>Highest temperature taken, inside the range of EOS-80 (40 degC, IPTS-68).</summary>
    public const double HighestCelsius = 39.98;

    private const double LeastLitres = 0.001;
    private const double MostLitres = 1e6;

    public static MixingRefusal? OfVolume(Volume volume) =>
        Within(MixingRefusalCode.VolumeOutsideRange, volume.Litres, LeastLitres, MostLitres);

    public static MixingRefusal? OfTemperature(Temperature temperature) =>
        Within(MixingRefusalCode.TemperatureOutsideRange, temperature.Celsius, LowestCelsius, HighestCelsius);

    public static MixingRefusal? OfSalinity(Salinity salinity) =>
        Within(MixingRefusalCode.SalinityOutsideRange, salinity.Practical, 0, HighestSalinity);

    public static MixingRefusal? Of(WaterBody water) =>
        OfVolume(water.Volume) ?? OfTemperature(water.Temperature) ?? OfSalinity(water.Salinity);

    /// <summary>The practical salinity of a wish on any scale, or why it has none. The temperature is in range.</summary>
    public static (Salinity Salinity, MixingRefusal? Refusal) Target(
        ScaledSalinity wished,
        Temperature temperature,
        SaltProduct product
    )
    {
        if (wished is { Scale: SalinityScale.SpecificGravity, Reference: null })
        {
            return (default, new(MixingRefusalCode.ReferenceNeeded, wished.Value, null));
        }

        var found = OtherScales.ToPractical(wished, temperature, product);
        if (found is not { } computed)
        {
            var given = double.IsFinite(wished.Value) ? wished.Value : 0;
            return (default, new(MixingRefusalCode.NoSuchSalinity, given, null));
        }

        if (OfSalinity(computed.Value) is { } outside)
        {
            return (default, outside);
        }

        return computed.WithinPublishedRange
            ? (computed.Value, null)
            : (default, new(MixingRefusalCode.NoSuchSalinity, wished.Value, null));
    }

    private static MixingRefusal? Within(MixingRefusalCode code, double given, double least, double most) =>
        given >= least && given <= most ? null : new(code, given, Math.Clamp(given, least, most));
}
