using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Phone.Browser;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Phone.AtTheBench;

/// <summary>A water in plain numbers: litres, practical salinity, degC.</summary>
internal readonly record struct KeptWater(double Litres, double Practical, double Celsius)
{
    public static KeptWater Of(WaterBody water) =>
        new(water.Volume.Litres, water.Salinity.Practical, water.Temperature.Celsius);

    public WaterBody ToWater() =>
        new(Volume.FromLitres(Litres), Salinity.FromPractical(Practical), Temperature.FromCelsius(Celsius));
}

/// <summary>A planned crossing with those it concerns: kept until it is written or thrown away.</summary>
internal sealed record KeptCrossing
{
    public double CupCapacityLitres { get; init; }
    public KeptWater Cup { get; init; }
    public KeptWater Source { get; init; }
    public KeptWater Receiving { get; init; }
    public double? ReceivingCapacityLitres { get; init; }
    public double WantedMinutes { get; init; }
    public double? CupTarget { get; init; }
    public int? WantedSteps { get; init; }
    public double? LeastLitresWithAnimals { get; init; }
    public double BrackishFrom { get; init; }
    public double BrackishTo { get; init; }
    public double BrackishLimitMinutes { get; init; }
    public double BandLow { get; init; }
    public double BandTarget { get; init; }
    public double BandHigh { get; init; }
    public bool AllowJump { get; init; }
    public double RestMinutes { get; init; }
    public Guid? Brood { get; init; }
    public Guid[] Collections { get; init; } = [];
    public Guid? FromVessel { get; init; }
    public Guid? SourceVessel { get; init; }
    public Guid? ReceivingVessel { get; init; }

    public BroodId? BroodId => Brood is { } id ? new BroodId(id) : null;

    public VesselId? FromId => FromVessel is { } id ? new VesselId(id) : null;

    public VesselId? SourceId => SourceVessel is { } id ? new VesselId(id) : null;

    public VesselId? ReceivingId => ReceivingVessel is { } id ? new VesselId(id) : null;

    public static KeptCrossing Of(CrossingOrder order) =>
        new()
        {
            CupCapacityLitres = order.CupCapacity.Litres,
            Cup = KeptWater.Of(order.Cup),
            Source = KeptWater.Of(order.Source),
            Receiving = KeptWater.Of(order.Receiving),
            ReceivingCapacityLitres = order.ReceivingCapacity?.Litres,
            WantedMinutes = order.WantedMinutes,
            CupTarget = order.CupTarget?.Practical,
            WantedSteps = order.WantedSteps,
            LeastLitresWithAnimals = order.LeastWithAnimals?.Litres,
            BrackishFrom = order.Brackish.Lower.Practical,
            BrackishTo = order.Brackish.Upper.Practical,
            BrackishLimitMinutes = order.Brackish.LimitMinutes,
            BandLow = order.ReceivingBand.Lower.Practical,
            BandTarget = order.ReceivingBand.Target.Practical,
            BandHigh = order.ReceivingBand.Upper.Practical,
            AllowJump = order.AllowJump,
            RestMinutes = order.RestMinutes,
        };

    public CrossingOrder ToOrder() =>
        new()
        {
            CupCapacity = Volume.FromLitres(CupCapacityLitres),
            Cup = Cup.ToWater(),
            Source = Source.ToWater(),
            Receiving = Receiving.ToWater(),
            ReceivingCapacity = ReceivingCapacityLitres is { } full ? Volume.FromLitres(full) : null,
            WantedMinutes = WantedMinutes,
            CupTarget = CupTarget is { } target ? Salinity.FromPractical(target) : null,
            WantedSteps = WantedSteps,
            LeastWithAnimals = LeastLitresWithAnimals is { } least ? Volume.FromLitres(least) : null,
            Brackish = BrackishRule.From(
                Salinity.FromPractical(BrackishFrom),
                Salinity.FromPractical(BrackishTo),
                BrackishLimitMinutes
            ),
            ReceivingBand = SalinityBand.From(
                Salinity.FromPractical(BandLow),
                Salinity.FromPractical(BandTarget),
                Salinity.FromPractical(BandHigh)
            ),
            AllowJump = AllowJump,
            RestMinutes = RestMinutes,
        };

    public string ToText() => JsonSerializer.Serialize(this, KeptCrossingJson.Default.KeptCrossing);

    /// <summary>The crossing in a text, and its plan; none where the text is of another version or no plan.</summary>
    public static (KeptCrossing Kept, CrossingPlan Plan)? Read(string? text)
    {
        if (text is null)
        {
            return null;
        }

        try
        {
            return
                JsonSerializer.Deserialize(text, KeptCrossingJson.Default.KeptCrossing) is { } kept
                && CrossingPlanner.Plan(kept.ToOrder()) is CrossingAnswer.Planned planned
                ? (kept, planned.Plan)
                : null;
        }
        catch (Exception broken) when (broken is JsonException or ArgumentException)
        {
            return null;
        }
    }
}

/// <summary>Keeps the planned crossing over a reload or a closed page.</summary>
internal sealed class CrossingMemory
{
    /// <summary>The name of its clock.</summary>
    public const string Clock = "crossing";

    private const string Setting = "crossing.plan";

    public (KeptCrossing Kept, CrossingPlan Plan)? Recall() => KeptCrossing.Read(Glue.ReadSetting(Setting));

    public void Keep(KeptCrossing kept) => Glue.WriteSetting(Setting, kept.ToText());

    public void Forget() => Glue.WriteSetting(Setting, null);
}

[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase
)]
[JsonSerializable(typeof(KeptCrossing))]
internal sealed partial class KeptCrossingJson : JsonSerializerContext;
