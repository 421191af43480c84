using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Workbench.Adults;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Losses;

namespace Broodtide.Workbench;

public sealed partial class Outlook
{
    private RestsOfHouse? _rests;

    /// <summary>The list for this evening over all broods.</summary>
    public Tonight Tonight => Tonight.Of(House, BroodsUnderWay, ForecastOf, Now, Zone);

    /// <summary>What the journal tells of one female's clutches.</summary>
    public FemaleHistory HistoryOf(Animal animal) => FemaleHistory.Of(House, animal, Now, Zone);

    /// <summary>When a female may carry again.</summary>
    public CarryAgain CarryAgainOf(Animal animal) =>
        CarryAgain.Of(House, animal, Profiles, ForecastOf, Now, Rests);

    private RestsOfHouse Rests => _rests ??= new(House, Profiles, Now);

    /// <summary>
    /// Whose larvae the gatherings of a box hold that females shared; none where they never did. Costs a forecast for each.
    /// </summary>
    public MixedBox? MixedIn(VesselId box) => MixedBox.Of(House, box, Profiles, Now, Zone);

    /// <summary>How many unsexed animals to buy for a wanted chance of both sexes.</summary>
    /// <param name="species">The species; that of most animals of the house if left out.</param>
    /// <param name="wish">What is wanted.</param>
    public BuyingBothSexes Buying(BuyingWish wish, string? species = null) =>
        BuyingBothSexes.Of(
            Profiles.Of(
                species
                    ?? House
                        .Animals.Select(animal => animal.Species)
                        .OfType<string>()
                        .GroupBy(name => name, StringComparer.Ordinal)
                        .OrderByDescending(group => group.Count())
                        .Select(group => group.Key)
                        .FirstOrDefault()
            ),
            wish
        );

    /// <summary>What to do after the loss of a run; none where it has no brood.</summary>
    public AfterLoss? AfterLossOf(RunId run) => AfterLoss.Of(this, House.Run(run));
}
