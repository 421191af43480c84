namespace Broodtide.Science.Estimation.Larvae;

/// <summary>One supposition that speaks for a share of the belief, with what follows from it for now.</summary>
/// <param name="Point">The unknowns.</param>
/// <param name="Mean">Mean number alive now.</param>
/// <param name="Variance">Its variance.</param>
/// <param name="HalfDay">Day by which half have settled.</param>
/// <param name="Shares">Stage shares now.</param>
internal sealed record LarvalDraw(
    LarvalPoint Point,
    double Mean,
    double Variance,
    double HalfDay,
    double[] Shares
);
