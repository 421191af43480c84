namespace Broodtide.Science.Estimation.Larvae;

/// <summary>One supposition that speaks for a share of the belief, with what follows from it for now.</summary>
/// <param name="Point">The unknowns.</param>
/// <param name="Weight">The share of the belief, above 0; those of all draws sum to 1.</param>
/// <param name="Mean">Mean number alive now.</param>
/// <param name="Variance">Its variance.</param>
/// <param name="HalfDay">Day by which half have settled.</param>
/// <param name="Shares">Stage shares now.</param>
internal sealed record LarvalDraw(
    LarvalPoint Point,
    double Weight,
    double Mean,
    double Variance,
    double HalfDay,
    double[] Shares
);
