using Broodtide.Phone.Language;
using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Phone.AtTheBench;

/// <summary>Refusals, scales and references of the mixing tools in words.</summary>
internal static class MixingTold
{
    /// <summary>Why water cannot be had as wished.</summary>
    public static string Of(MixingRefusal refusal, Words words, Formats formats) =>
        words["mixing." + refusal.Code, Number(refusal, refusal.Given, formats)];

    /// <summary>The nearest that can be, as a number in the unit of the code; none where nothing helps.</summary>
    public static string? NearestOf(MixingRefusal refusal, Formats formats) =>
        refusal.Nearest is { } nearest ? Number(refusal, nearest, formats) : null;

    /// <summary>What stands on the instrument: 25/25 °C, 60/60 °F.</summary>
    public static string Of(ReferencePair pair, Formats formats)
    {
        var sixty = Math.Abs(pair.Sample.Fahrenheit - 60) < 0.01;
        return sixty
            ? $"60/60{Formats.ThinSpace}°F"
            : $"{formats.Plain(pair.Sample.Celsius, 1)}/{formats.Plain(pair.Water.Celsius, 1)}{Formats.ThinSpace}°C";
    }

    /// <summary>A number on its scale, with as many figures as the scale earns.</summary>
    public static string Of(ScaleValue value, Words words, Formats formats) =>
        value.Value is { } number ? Shown(value.Scale, number, words, formats) : words["scale.none"];

    public static string Shown(SalinityScale scale, double number, Words words, Formats formats)
    {
        var decimals = scale switch
        {
            SalinityScale.SpecificGravity => 4,
            SalinityScale.Chlorinity => 2,
            SalinityScale.PercentOfSeaWater => 0,
            _ => 1,
        };
        var shown = formats.Number(number, decimals);
        return scale == SalinityScale.SpecificGravity
            ? shown
            : shown + Formats.ThinSpace + words["scale.unit." + scale];
    }

    public static string NameOf(ScaleValue value, Words words, Formats formats) =>
        value.Reference is { } pair
            ? words["scale.gravityAt", Of(pair, formats)]
            : words["scale." + value.Scale];

    private static string Number(MixingRefusal refusal, double number, Formats formats) =>
        refusal.Code switch
        {
            MixingRefusalCode.SalinityOutsideRange
            or MixingRefusalCode.WaterTooSalt
            or MixingRefusalCode.NotBetweenTheWaters => formats.Reading(
                Salinity.FromPractical(Math.Max(0, number))
            ),
            MixingRefusalCode.TemperatureOutsideRange => formats.Reading(
                Temperature.FromCelsius(Math.Clamp(number, -273, 1000))
            ),
            MixingRefusalCode.VolumeOutsideRange or MixingRefusalCode.NotEnoughWater => formats.Amount(
                Volume.FromLitres(Math.Max(0, number))
            ),
            _ => formats.Plain(number, 4),
        };
}
