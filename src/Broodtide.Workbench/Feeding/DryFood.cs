using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Feeding;

/// <summary>Food that does not live in the water: what is not eaten decays.</summary>
public enum DryFoodKind
{
    /// <summary>Baker's yeast as it is sold fresh, pressed.</summary>
    FreshYeast,

    /// <summary>Dry yeast.</summary>
    DryYeast,

    /// <summary>Powder: algae, fish food, rearing food.</summary>
    Powder,
}

/// <summary>What is in a food as it is sold.</summary>
/// <param name="Dry">Share that is not water.</param>
/// <param name="Protein">Crude protein as a share of the product as sold, 5 and 95 %.</param>
/// <param name="IsUsual">Whether it is the usual for its kind and not what a pack says.</param>
public sealed record DryFood(Probability Dry, Interval Protein, bool IsUsual)
{
    /// <summary>
    /// The usual: fodder yeast holds 40 to 60 % protein of its dry mass (Ghent University's course on live feeds), pressed
    /// yeast is about 30 % dry matter (from memory), dry yeast 95 %, powders 90 % with 30 to 60 % protein (practice).
    /// </summary>
    public static DryFood Usual(DryFoodKind kind) =>
        kind switch
        {
            DryFoodKind.FreshYeast => Of(0.3, 0.4 * 0.3, 0.6 * 0.3),
            DryFoodKind.DryYeast => Of(0.95, 0.4 * 0.95, 0.6 * 0.95),
            _ => Of(0.9, 0.3, 0.6),
        };

    /// <summary>What a pack says.</summary>
    /// <param name="protein">Crude protein of the product as sold.</param>
    /// <param name="moisture">Water of the product as sold.</param>
    public static DryFood FromPack(Probability protein, Probability moisture) =>
        new(
            Probability.FromFraction(moisture.Opposite),
            Interval.Exactly(Math.Min(protein.Value, moisture.Opposite)),
            IsUsual: false
        );

    /// <summary>What a keeper described of a feed, the usual of its kind where the pack says nothing.</summary>
    /// <param name="feed">The feed.</param>
    /// <param name="kind">The kind it is taken for.</param>
    public static DryFood Described(FeedDescribed feed, DryFoodKind kind)
    {
        ArgumentNullException.ThrowIfNull(feed);
        var usual = Usual(kind);
        var dry = feed.Moisture is { } water
            ? Probability.FromFraction(1 - Math.Clamp(water.Value / 100, 0, 1))
            : usual.Dry;
        return new(
            dry,
            feed.Protein is { } protein
                ? Interval.Exactly(Math.Clamp(protein.Value / 100, 0, dry.Value))
                : usual.Protein.Scaled(dry.Value / usual.Dry.Value),
            IsUsual: feed.Protein is null
        );
    }

    /// <summary>The kind that a described feed is taken for; none for food that lives in the water.</summary>
    /// <param name="feed">The feed.</param>
    public static DryFoodKind? KindOf(FeedDescribed feed)
    {
        ArgumentNullException.ThrowIfNull(feed);
        // Half water or more, and it is pressed yeast.
        return feed.Food switch
        {
            FoodKind.Yeast => feed.Moisture is { Value: >= 50 }
                ? DryFoodKind.FreshYeast
                : DryFoodKind.DryYeast,
            FoodKind.Powder or FoodKind.Other => DryFoodKind.Powder,
            _ => null,
        };
    }

    private static DryFood Of(double dry, double low, double high) =>
        new(Probability.FromFraction(dry), Interval.FromPoints(low, (low + high) / 2, high), IsUsual: true);
}
