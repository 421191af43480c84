using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>The arithmetic of sea water.</summary>
internal static class WaterVerb
{
    public static Command Make()
    {
        var water = new Command(
            "water",
            "Sea water: make it, correct it, blend it, and know what a reading means."
        );
        water.Subcommands.Add(MakeVerb.Make());
        water.Subcommands.Add(CorrectWaterVerb.Make());
        water.Subcommands.Add(BlendVerb.Make());
        water.Subcommands.Add(ReadsVerb.Make());
        water.Subcommands.Add(StandardVerb.Make());
        water.Subcommands.Add(SteriliseVerb.Make());
        water.Subcommands.Add(DoseVerb.Make());
        water.Subcommands.Add(AmmoniaVerb.Make());
        water.Subcommands.Add(OsmolalityVerb.Make());
        return water;
    }

    /// <summary>The refusal of a calculation, as a remark.</summary>
    public static Remark Of(MixingRefusal refusal) =>
        refusal.Nearest is { } nearest
            ? new Remark(
                $"{Saying.Key(refusal.Code)}-nearest",
                new("given", refusal.Given),
                new("nearest", nearest)
            )
            : new Remark(Saying.Key(refusal.Code), new Argument("given", refusal.Given));
}

/// <summary>The salt mix of a call.</summary>
internal sealed class ProductSlots
{
    private readonly Slot _moisture = Slot.Option(
        "--moisture",
        "Water in the salt mix in percent of its weight, if measured; else 8 % is assumed, far from sure.",
        "PERCENT"
    );

    public IReadOnlyList<Slot> All => [_moisture];

    public SaltProduct Read(Said said)
    {
        if (said.Number(_moisture) is not { } percent)
        {
            return SaltProduct.Unmeasured;
        }

        if (percent is >= 0 and <= 90)
        {
            return SaltProduct.FromWaterShare(percent / 100, 0.01);
        }

        said.Add(
            new Remark(
                "number-impossible",
                new("field", "moisture"),
                new("typed", said.TheText(_moisture)),
                new("lowest", 0.0),
                new("highest", 90.0)
            )
        );
        return SaltProduct.Unmeasured;
    }
}

/// <summary>The same water on another scale.</summary>
internal sealed record ScaleJson(string Scale, double? Value);

/// <summary>Puts scales and waters into words.</summary>
internal static class ScaleWords
{
    public static string Of(ScaleValue value) =>
        value.Reference is { } pair
            ? $"{Saying.Of(value.Scale)} {Saying.Number(pair.Sample.Celsius)}/{Saying.Number(pair.Water.Celsius)} °C"
            : Saying.Of(value.Scale);

    public static string Code(ScaleValue value) =>
        value.Reference is { } pair
            ? $"{EnumWords.Of(value.Scale)}-{Saying.Number(pair.Sample.Celsius)}-{Saying.Number(pair.Water.Celsius)}"
            : EnumWords.Of(value.Scale);

    public static IReadOnlyList<ScaleJson> Json(IReadOnlyList<ScaleValue> values) =>
        [.. values.Select(value => new ScaleJson(Code(value), value.Value))];

    public static void Print(Page page, IReadOnlyList<ScaleValue> values) =>
        page.Table(
            ["the same water on other scales", ""],
            values.Select(value =>
                (IReadOnlyList<string>)
                    [
                        Of(value),
                        value.Value is not { } number ? "outside the formula"
                        : value.Scale == SalinityScale.SpecificGravity
                            ? number.ToString("0.0000", System.Globalization.CultureInfo.InvariantCulture)
                        : Saying.Number(number),
                    ]
            )
        );

    public static string Of(WaterBody water) =>
        $"{UnitNames.Litres(water.Volume.Litres)} of {Saying.Number(water.Salinity.Practical)} ppt at {Saying.Number(water.Temperature.Celsius)} °C";
}

/// <summary>Water for machines.</summary>
internal sealed record WaterJson(double Litres, double SalinityPpt, double TemperatureCelsius)
{
    public static WaterJson Of(WaterBody water) =>
        new(water.Volume.Litres, water.Salinity.Practical, water.Temperature.Celsius);
}
