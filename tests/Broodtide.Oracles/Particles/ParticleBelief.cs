namespace Broodtide.Oracles.Particles;

/// <summary>The number alive after a step, as weighted particles.</summary>
/// <param name="Alive">Number alive in each.</param>
/// <param name="Shares">Weight of each; they sum to one.</param>
/// <param name="LogLikelihood">Estimate for all that was seen up to here, nat.</param>
public sealed record ParticleBelief(
    IReadOnlyList<int> Alive,
    IReadOnlyList<double> Shares,
    double LogLikelihood
)
{
    public double Mean => Alive.Zip(Shares, (alive, share) => alive * share).Sum();

    public double StandardDeviation
    {
        get
        {
            var mean = Mean;
            return Math.Sqrt(
                Alive.Zip(Shares, (alive, share) => (alive - mean) * (alive - mean) * share).Sum()
            );
        }
    }

    public double EffectiveSampleSize => Weights.EffectiveSampleSize(Shares);
}
