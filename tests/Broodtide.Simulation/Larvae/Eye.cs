namespace Broodtide.Simulation.Larvae;

/// <summary>How well a keeper sees; the same for a whole run.</summary>
/// <param name="Beam">Share seen of larvae that come to the light.</param>
/// <param name="Glance">Share seen in passing.</param>
/// <param name="Dead">Share of the dead that is found.</param>
public sealed record Eye(double Beam, double Glance, double Dead)
{
    // Attraction to light of Z1 to Z9 and the post-larva.
    private static readonly double[] Attraction = [1, 1, 1, 1, 1, 1, 0.6, 0.35, 0.15, 0];

    public static double ComesToLight(int stage) => Attraction[stage];

    public static Eye Drawn(Dice dice) =>
        new(Beta(dice, 0.35, 20), Beta(dice, 0.1, 60), Beta(dice, 0.25, 15));

    private static double Beta(Dice dice, double mean, double weight)
    {
        var yes = dice.Gamma(mean * weight);
        return yes / (yes + dice.Gamma((1 - mean) * weight));
    }
}
