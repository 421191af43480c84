using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>
/// When a clutch was laid, as far as entries tell. A female mates soft, right after a moult, and lays within about a day
/// (recalled, not verified), so a moult that was written is the mating moult of the clutch seen after it.
/// </summary>
/// <param name="Moult">The moult, if one was written between the clutch before and this one.</param>
/// <param name="From">Not laid before; none if nothing bounds it.</param>
/// <param name="To">Not laid after: the eggs were seen then.</param>
public sealed record MatingMoult(Happened? Moult, Instant? From, Instant To)
{
    /// <summary>The mating moult of a brood; none where its eggs were never seen.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="brood">The brood.</param>
    public static MatingMoult? Of(House house, Brood brood)
    {
        if (brood.FirstSeenBerried is not { } seen)
        {
            return null;
        }

        var animal = brood.Animal is { } id ? house.Animal(id) : null;
        var before = animal is null ? null : BeforeOf(house, animal, brood);
        var moult = animal
            ?.Moults.Where(moult =>
                moult.Earliest <= seen.Latest && (before is not { } end || moult.Latest >= end)
            )
            .Select(moult => (Happened?)moult)
            .LastOrDefault();
        Instant?[] bounds = [before, brood.LastSeenEmpty?.Earliest, moult?.Earliest];
        var from = bounds.Max();
        return new(moult, from is { } known && known > seen.Latest ? seen.Latest : from, seen.Latest);
    }

    /// <summary>When the brood before this one was off her, as far as known; none for her first.</summary>
    private static Instant? BeforeOf(House house, Animal animal, Brood brood)
    {
        var place = animal.Broods.TakeWhile(other => other != brood.Id).Count();
        if (place == 0 || place >= animal.Broods.Count)
        {
            return null;
        }

        var last = house.Brood(animal.Broods[place - 1]);
        return last.FirstLarvae?.Earliest ?? last.Dropped?.Earliest ?? last.LastSeenCarried;
    }
}
