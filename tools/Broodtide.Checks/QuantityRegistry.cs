using Broodtide.Checks.Quantities;

namespace Broodtide.Checks;

/// <summary>All quantities the library computes, by name.</summary>
public static class QuantityRegistry
{
    private static readonly Dictionary<string, Quantity> ByName = new[]
    {
        SalinityQuantities.All,
        DensityQuantities.All,
        OpticsQuantities.All,
        AmmoniaQuantities.All,
        OxygenQuantities.All,
        SaltQuantities.All,
        EvaporationQuantities.All,
        ChlorineQuantities.All,
        OsmoticQuantities.All,
        BayesQuantities.All,
        ScoreQuantities.All,
        SurvivalQuantities.All,
        HazardQuantities.All,
        StageQuantities.All,
        MetamorphosisQuantities.All,
        CollectQuantities.All,
        CountQuantities.All,
        ChamberQuantities.All,
        PmfQuantities.All,
        ProportionQuantities.All,
        OverdispersionQuantities.All,
        RegressionQuantities.All,
        NMixtureQuantities.All,
        KalmanQuantities.All,
        HiddenChainQuantities.All,
        PopulationQuantities.All,
        ParticleQuantities.All,
        SbcQuantities.All,
        CoverageQuantities.All,
        AlgaeQuantities.All,
        FoodQuantities.All,
        WasteQuantities.All,
        WaterChangeQuantities.All,
        ThermalTimeQuantities.All,
        DoseQuantities.All,
        PoolingQuantities.All,
        TrialQuantities.All,
        SeriesQuantities.All,
    }
        .SelectMany(group => group)
        .ToDictionary(quantity => quantity.Name, StringComparer.Ordinal);

    /// <summary>Every quantity known.</summary>
    public static IReadOnlyCollection<Quantity> All => ByName.Values;

    /// <summary>The quantity of a name, if known.</summary>
    public static Quantity? Find(string name) => ByName.GetValueOrDefault(name);
}
