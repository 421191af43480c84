using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Safety;

/// <summary>Dry food that went into a vessel.</summary>
/// <param name="Hour">Hour of the vessel's clock before which it went in.</param>
/// <param name="Food">What kind of food.</param>
/// <param name="Feed">Name of the described feed, if one was named.</param>
/// <param name="DryMass">Dry mass.</param>
/// <param name="Composition">What it is made of.</param>
public sealed record FoodGiven(
    int Hour,
    FoodKind Food,
    string? Feed,
    Mass DryMass,
    FeedComposition Composition
);

/// <summary>What foods are made of, by the feeds that a keeper described.</summary>
public static class FoodComposition
{
    // A powder whose packet nobody read: protein of larval feeds, 40 to 60 % (common practice, no source).
    private const double UsualProtein = 0.5;

    // Ready-dried yeast and powders hold a few percent of water; a fresh cube of yeast about 70 % (from memory).
    private const double UsualMoisture = 0.06;

    /// <summary>The newest description of a feed; none where nobody described it.</summary>
    public static FeedDescribed? Find(House house, string? name) =>
        name is null ? null : Described(house).LastOrDefault(feed => IsCalled(feed, name));

    /// <summary>The feeds that were described, each as it was described last, first described first.</summary>
    public static IReadOnlyList<FeedDescribed> All(House house)
    {
        var feeds = new List<FeedDescribed>();
        foreach (var feed in Described(house))
        {
            var place = feeds.FindIndex(earlier => IsCalled(earlier, feed.Name));
            if (place < 0)
            {
                feeds.Add(feed);
            }
            else
            {
                feeds[place] = feed;
            }
        }

        return feeds;
    }

    private static IEnumerable<FeedDescribed> Described(House house) =>
        house.Told<FeedDescribed>(Subject.House).Select(occurrence => (FeedDescribed)occurrence.Fact);

    private static bool IsCalled(FeedDescribed feed, string name) =>
        string.Equals(feed.Name.Trim(), name.Trim(), StringComparison.OrdinalIgnoreCase);

    /// <summary>Dry mass and composition of a weighed food; none where nothing was weighed, or the food is not dry.</summary>
    public static (Mass Dry, FeedComposition Composition)? Of(VesselFed fed, FeedDescribed? feed)
    {
        if (
            fed.Mass.AsMass() is not { Grams: > 0 } weighed
            || fed.Food is FoodKind.GreenWater or FoodKind.Film or FoodKind.Rotifers or FoodKind.Artemia
        )
        {
            return null;
        }

        var moisture = Math.Clamp(feed?.Moisture?.Value / 100 ?? UsualMoisture, 0, 0.99);
        var dry = Mass.FromGrams(weighed.Grams * (1 - moisture));
        if (feed?.Protein is { } protein)
        {
            var share = Math.Clamp(protein.Value / 100 / (1 - moisture), 0, 1);
            return (dry, FeedComposition.Powder(Probability.FromFraction(share)));
        }

        return (
            dry,
            fed.Food is FoodKind.Yeast
                ? FeedComposition.Yeast
                : FeedComposition.Powder(Probability.FromFraction(UsualProtein))
        );
    }
}
