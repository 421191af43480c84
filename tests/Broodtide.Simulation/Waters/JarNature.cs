namespace Broodtide.Simulation.Waters;

/// <summary>What differs from jar to jar and nobody knows.</summary>
public sealed record JarNature(
    double AlgaePerDay,
    double LightHalf,
    double AlgaeDie,
    double CarbonOfCellPg,
    double ClearedMl,
    double Hydrolysis,
    double BacteriaPerDay,
    double LarvaNitrogenMg,
    double ExchangeWithAir,
    double ExchangeStill
)
{
    public static JarNature Of(Dice dice) =>
        new(
            dice.Between(1, 2.4),
            dice.Between(40, 110),
            dice.Between(0.02, 0.1),
            dice.Between(50, 110),
            dice.Between(0.5, 8),
            dice.Between(0.2, 0.9),
            dice.Between(2.5, 6),
            dice.Between(0.0003, 0.002),
            dice.Between(25, 90),
            dice.Between(3, 9)
        );
}
