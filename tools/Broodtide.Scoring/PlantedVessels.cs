using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Scoring;

/// <summary>Wrong beliefs, held too firmly to be unlearned.</summary>
public static class PlantedVessels
{
    /// <summary>A planted belief by its name, or none.</summary>
    public static VesselPriors? Find(string name) =>
        name switch
        {
            "growth" => Wrong(VesselParameter.AlgalGrowthPerDay, 0.25),
            "decay" => Wrong(VesselParameter.DecayPerDay, 5),
            _ => null,
        };

    private static VesselPriors Wrong(VesselParameter parameter, double factor)
    {
        var usual = VesselPriors.Usual[parameter];
        return VesselPriors.Usual.With(
            new(
                parameter,
                usual.Median * factor,
                0.02,
                usual.Lowest,
                usual.Highest,
                usual.Footing,
                "planted wrong"
            )
        );
    }
}
