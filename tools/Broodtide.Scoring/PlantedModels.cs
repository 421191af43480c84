using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Scoring;

/// <summary>Wrong models, planted to see that the report turns red.</summary>
public static class PlantedModels
{
    /// <summary>By name; none if there is none of that name.</summary>
    public static Func<LarvalRun, LarvalRun>? Find(string name) =>
        name switch
        {
            "poisson" => WellMixed,
            "detection" => AllSeen,
            _ => null,
        };

    /// <summary>Aliquots of larvae that never clump.</summary>
    public static LarvalRun WellMixed(LarvalRun run) =>
        run with
        {
            Priors = run.Priors with { Clumping = new(1e6, 0.01) },
        };

    /// <summary>A beam or a glance sees every larva.</summary>
    public static LarvalRun AllSeen(LarvalRun run) =>
        run with
        {
            Priors = run.Priors with
            {
                Detection = [.. run.Priors.Detection.Select(_ => new ShareBelief(0.97, 0.05))],
            },
        };
}
