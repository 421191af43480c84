using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>
/// What must be done for one brood and by when, worked out backward from the forecast of its hatch; forward from the
/// larvae once they are there. Made anew whenever the forecast moves: the dates move with it, the keys stay.
/// </summary>
/// <param name="Brood">The brood.</param>
/// <param name="Now">The instant it was made for.</param>
/// <param name="Actions">
/// Every action, done and skipped ones too, by the time they are best done by.
/// </param>
public sealed record BackwardPlan(BroodId Brood, Instant Now, IReadOnlyList<PlannedAction> Actions)
{
    /// <summary>What its numbers rest on, where they are a relative's or nobody knows.</summary>
    public IReadOnlyList<Remark> Remarks { get; init; } = [];

    /// <summary>The actions that are still asked for.</summary>
    public IEnumerable<PlannedAction> Open => Actions.Where(action => action.IsOpen);

    /// <summary>The plan of a brood.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="brood">The brood.</param>
    /// <param name="profile">The species, the keeper's choices included.</param>
    /// <param name="forecast">Its forecast; none where neither eggs nor larvae were seen.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    /// <param name="wishes">What the keeper wishes.</param>
    /// <param name="cultures">The cultures of the house; none if left out.</param>
    /// <param name="salinityOf">Practical salinity of a vessel by its ledger; not known if left out.</param>
    public static BackwardPlan Of(
        House house,
        Brood brood,
        SpeciesProfile profile,
        BroodForecast? forecast,
        Instant now,
        DateTimeZone zone,
        PlanWishes? wishes = null,
        IReadOnlyList<CultureState>? cultures = null,
        Func<VesselId, double?>? salinityOf = null
    )
    {
        var scene = new PlanScene(house, brood, profile, forecast, wishes ?? new(), now, zone)
        {
            Cultures = cultures ?? [],
            SalinityOf = salinityOf ?? (_ => null),
        };
        IEnumerable<PlannedAction> actions =
            brood.FirstLarvae is not null ? [.. PlanLarvae.Of(scene), .. PlanLarvalPhase.Of(scene)]
            : forecast is null ? []
            : [.. PlanBeforeHatch.Of(scene), .. PlanHatchNights.Of(scene)];
        return new(
            brood.Id,
            now,
            [
                .. ActionsTold
                    .Of(house, now)
                    .Settle(actions.DistinctBy(action => action.Key))
                    .OrderBy(action => action.By)
                    .ThenBy(action => action.From)
                    .ThenBy(action => action.Key, StringComparer.Ordinal),
            ]
        )
        {
            Remarks = [.. RestsOn(profile)],
        };
    }

    private static IEnumerable<Remark> RestsOn(SpeciesProfile profile)
    {
        foreach (
            var borrowed in BorrowedNumbers.Of(
                profile,
                [.. BorrowedNumbers.OfEggs, .. BorrowedNumbers.OfWater, .. BorrowedNumbers.OfLarvae]
            )
        )
        {
            yield return borrowed;
        }

        if (profile.FirstFood is FirstFoodNeed.NotKnown)
        {
            yield return new Remark("first-food-not-known", new Argument("species", profile.ScientificName));
        }
    }
}
