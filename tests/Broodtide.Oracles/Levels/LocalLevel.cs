namespace Broodtide.Oracles.Levels;

/// <summary>A level that wanders, seen with noise: y = level + offset + noise, next level = level + step.</summary>
/// <param name="NoiseVariance">Variance of the noise, unit of y squared.</param>
/// <param name="StepVariance">Variance of a step of the level, unit of y squared.</param>
/// <param name="Offset">Added to the level in what is seen.</param>
public sealed record LocalLevel(double NoiseVariance, double StepVariance, double Offset = 0);

/// <summary>What is known of the level before the first value.</summary>
public abstract record LevelStart
{
    private LevelStart() { }

    /// <summary>
    /// Nothing: the first value is taken as the level. Its own likelihood is improper: either it is left out of the
    /// sum, or it counts as the exact diffuse recursion has it, -0.5 ln 2 pi (Durbin and Koopman 2012, section 7.2).
    /// </summary>
    public sealed record Diffuse(bool CountsConstant) : LevelStart;

    /// <summary>Mean and variance of the level at the first value.</summary>
    public sealed record Known(double Mean, double Variance) : LevelStart;

    /// <summary>Mean and variance of the level one step before the first value.</summary>
    public sealed record KnownBefore(double Mean, double Variance) : LevelStart;
}
