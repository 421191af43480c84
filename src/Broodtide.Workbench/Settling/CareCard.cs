using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>What the keeper adds to a care card; nothing of it is written in the journal.</summary>
public sealed record CareWishes
{
    /// <summary>How many generations away from animals of the wild, such as F1; none where it is not known.</summary>
    public string? Generation { get; init; }

    /// <summary>Hardness of their water as calcium carbonate, mg/L; none where nobody measured.</summary>
    public double? HardnessMilligramsPerLitre { get; init; }

    /// <summary>What they eat, in the keeper's words; none to leave the usual.</summary>
    public string? Food { get; init; }
}

/// <summary>
/// The card that goes with juveniles that are given away: what they are, how they lived, how to keep them, and the code by
/// which their survival comes back. It holds no place and no name but those the keeper wrote for this giving.
/// </summary>
/// <param name="Gift">The giving.</param>
/// <param name="Species">Scientific name, as the keeper believes.</param>
/// <param name="IsSpeciesKnown">Whether the keeper named it; the reference species stands in otherwise.</param>
/// <param name="Hatched">When they came into the sea; none where it is not known.</param>
/// <param name="DaysInFreshWater">Days in fresh water when they left, fewest and most; none where it is not known.</param>
/// <param name="Wishes">What the keeper added.</param>
/// <param name="Remarks">How to keep them, and what nobody knows.</param>
public sealed record CareCard(
    Gift Gift,
    string Species,
    bool IsSpeciesKnown,
    Instant? Hatched,
    (double Least, double Most)? DaysInFreshWater,
    CareWishes Wishes,
    IReadOnlyList<Remark> Remarks
)
{
    /// <summary>The card of a giving.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="profiles">Whose numbers apply.</param>
    /// <param name="gift">The giving.</param>
    /// <param name="wishes">What the keeper adds.</param>
    public static CareCard Of(House house, HouseProfiles profiles, Gift gift, CareWishes? wishes = null)
    {
        var added = wishes ?? new CareWishes();
        added = added with
        {
            HardnessMilligramsPerLitre =
                added.HardnessMilligramsPerLitre ?? HardnessRead.Of(house, gift.From, gift.When.Latest),
        };
        var vessel = house.Vessel(gift.From);
        var book = NurseryBook.Of(house, gift.From, profiles.Of(vessel), gift.When.Latest);
        var brood = book
            ?.Home.SelectMany(home =>
                house.Cohorts.Where(cohort => cohort.Groups.Any(group => group.Vessel == home.From))
            )
            .Select(cohort => cohort.Brood)
            .OfType<BroodId>()
            .Select(id => (BroodId?)id)
            .FirstOrDefault();
        var profile = brood is { } known ? profiles.Of(known) : profiles.Of(vessel);
        var named = brood is { } of
            ? house.RunOf(of)?.Species
                ?? (house.Brood(of).Animal is { } animal ? house.Animal(animal).Species : null)
            : vessel.Species;
        return new(
            gift,
            named is null || SpeciesProfiles.Find(named) is not null ? profile.ScientificName : named,
            named is not null,
            book?.HatchedFrom,
            book is { Home: { Count: > 0 } home } ? Fresh(home, gift) : null,
            added,
            [.. Advice(profile, added)]
        );
    }

    private static (double Least, double Most) Fresh(IReadOnlyList<CameHome> home, Gift gift) =>
        (
            Math.Max(0, (gift.When.Earliest - home[^1].When.Latest).TotalDays),
            Math.Max(0, (gift.When.Latest - home[0].When.Earliest).TotalDays)
        );

    private static IEnumerable<Remark> Advice(SpeciesProfile profile, CareWishes wishes)
    {
        if (
            wishes.HardnessMilligramsPerLitre is null
            && profile.Find("juvenile-hardness") is { Low: { } low, High: { } high }
        )
        {
            yield return new Remark(
                "card-hardness-usual",
                new("lowMilligramsPerLitre", low),
                new("highMilligramsPerLitre", high)
            );
        }

        yield return new Remark("card-lid");
        yield return new Remark("card-no-copper");
        yield return new Remark("card-slow-change");
        if (wishes.Food is null)
        {
            yield return new Remark("card-food-usual");
        }

        if (profile.Find("juvenile-to-adult-days") is { Low: { } least, High: { } most })
        {
            yield return new Remark("card-adult-after", new("daysLow", least), new("daysHigh", most));
        }

        yield return new Remark("card-larvae-need-the-sea");
        yield return new Remark("return-never-into-nature");
    }
}
