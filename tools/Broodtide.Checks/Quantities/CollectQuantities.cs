using Broodtide.Science.Development.Collecting;

namespace Broodtide.Checks.Quantities;

/// <summary>When to gather larvae.</summary>
internal static class CollectQuantities
{
    private const string BestKeys = "mean_h, sd_h, hazard_per_h, collections";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "collect.alive_fraction_uniform",
            "hazard_per_h, interval_h",
            inputs =>
                CollectionYield.OfEvenHatching(inputs.Number("hazard_per_h"), inputs.Number("interval_h"))
        ),
        Quantity.Of("collect.optimal_time", $"{BestKeys}, index", Time),
        Quantity.Of(
            "collect.optimal_yield",
            BestKeys,
            inputs => CollectionYield.Of(Hatch(inputs), inputs.Number("hazard_per_h"), [.. Best(inputs)])
        ),
        Quantity.Of(
            "collect.yield",
            "times_h, mean_h, sd_h, hazard_per_h",
            inputs =>
                CollectionYield.Of(Hatch(inputs), inputs.Number("hazard_per_h"), inputs.Numbers("times_h"))
        ),
    ];

    private static double Time(CheckInputs inputs)
    {
        var best = Best(inputs);
        var index = CheckWhole.Of(inputs.Number("index"), "index");
        return index >= 1 && index <= best.Count
            ? best[index - 1]
            : throw new ArgumentException($"index={index}: there are {best.Count}", nameof(inputs));
    }

    private static IReadOnlyList<double> Best(CheckInputs inputs) =>
        CollectionYield.BestTimes(
            Hatch(inputs),
            inputs.Number("hazard_per_h"),
            CheckWhole.Of(inputs.Number("collections"), "collections")
        );

    private static NormalHatch Hatch(CheckInputs inputs) =>
        new(inputs.Number("mean_h"), inputs.Number("sd_h"));
}
