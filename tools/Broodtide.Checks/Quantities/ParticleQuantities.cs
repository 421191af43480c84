using Broodtide.Oracles.Particles;

namespace Broodtide.Checks.Quantities;

/// <summary>The particle filter.</summary>
internal static class ParticleQuantities
{
    // Any seed will do; one is taken so that a run can be repeated.
    private const int Seed = 20_260;

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "particle.mean_likelihood_ratio",
            $"init, n0, {PopulationQuantities.CountKeys}, particles, replicates",
            inputs =>
                BootstrapFilter.MeanLikelihoodRatio(
                    PopulationQuantities.Course(inputs),
                    inputs.WholeNumber("particles", 1),
                    inputs.WholeNumber("replicates", 1),
                    Seed
                )
        ),
        Quantity.Of(
            "particle.ess",
            "weights",
            inputs => Weights.EffectiveSampleSize(inputs.Numbers("weights"))
        ),
        Quantity.ListOf(
            "particle.systematic_indices",
            "weights, u",
            inputs =>
                [
                    .. SystematicResampling
                        .Indices(inputs.Numbers("weights"), inputs.Number("u"))
                        .Select(place => (double)place),
                ]
        ),
    ];
}
