using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Science.Development.Females;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Adults;

/// <summary>When a female may carry again, and what that rests on.</summary>
/// <param name="Animal">The female.</param>
/// <param name="After">The clutch before; none where she never carried one here.</param>
/// <param name="Since">When that was off her, or when its larvae are expected.</param>
/// <param name="When">When she lays again, 5, 50 and 95 % points; none where nothing is known to reckon from.</param>
/// <param name="LearnedFrom">Rests of this house's females that it was learned from.</param>
/// <param name="Remarks">What it rests on.</param>
public sealed record CarryAgain(
    AnimalId Animal,
    BroodId? After,
    Instant? Since,
    InstantRange? When,
    int LearnedFrom,
    IReadOnlyList<Remark> Remarks
)
{
    /// <summary>The answer for one female.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="animal">The female.</param>
    /// <param name="profiles">Whose numbers apply.</param>
    /// <param name="forecastOf">The forecast of a brood that is still carried.</param>
    /// <param name="now">The present.</param>
    /// <param name="rests">The rests of the house.</param>
    internal static CarryAgain Of(
        House house,
        Animal animal,
        HouseProfiles profiles,
        Func<BroodId, BroodForecast?> forecastOf,
        Instant now,
        RestsOfHouse rests
    )
    {
        if (animal.Broods.Count == 0)
        {
            return new(animal.Id, null, null, null, 0, [new Remark("carry-never-before")]);
        }

        var profile = profiles.Of(animal.Species);
        var brood = house.Brood(animal.Broods[^1]);
        if (rests.Of(profile) is not { } learned)
        {
            return new(animal.Id, brood.Id, null, null, 0, [new Remark("carry-rest-unknown")]);
        }

        var belief = learned.Belief;
        var remarks = new List<Remark>
        {
            belief.LearnedFrom == 0
                ? new Remark("carry-rest-assumed")
                : new Remark(
                    "carry-rest-learned",
                    new("rests", belief.LearnedFrom),
                    new("own", learned.From.Count(rest => rest.Female == animal.Id))
                ),
            new("carry-pauses-in-winter"),
        };
        var (end, ended) = FemaleHistory.EndOf(house, animal, brood, now);
        return end switch
        {
            ClutchEnd.Carried => Carrying(animal, brood, forecastOf(brood.Id), belief, remarks),
            ClutchEnd.Dropped => Dropped(animal, brood, ended!.Value.Middle, belief, profile, remarks, now),
            _ => Gone(animal, brood, ended!.Value.Middle, belief, remarks, now),
        };
    }

    private static CarryAgain Carrying(
        Animal animal,
        Brood brood,
        BroodForecast? forecast,
        RestBelief belief,
        List<Remark> remarks
    )
    {
        if (forecast is null)
        {
            return new(animal.Id, brood.Id, null, null, belief.LearnedFrom, remarks);
        }

        remarks.Add(new Remark("carry-after-this-clutch"));
        var rest = belief.Next();
        // The spreads of two independent times, added as their squares on either side of the middle.
        var middle = forecast.Median + Duration.FromDays(rest.Middle);
        var early = Math.Sqrt(
            Square((forecast.Median - forecast.Window90.From).TotalDays) + Square(rest.Middle - rest.Low)
        );
        var late = Math.Sqrt(
            Square((forecast.Window90.To - forecast.Median).TotalDays) + Square(rest.High - rest.Middle)
        );
        return new(
            animal.Id,
            brood.Id,
            forecast.Median,
            new(middle - Duration.FromDays(early), middle, middle + Duration.FromDays(late)),
            belief.LearnedFrom,
            remarks
        );
    }

    private static CarryAgain Gone(
        Animal animal,
        Brood brood,
        Instant since,
        RestBelief belief,
        List<Remark> remarks,
        Instant now
    )
    {
        var when = Range(since, belief.Next(Barren(animal, since, now)));
        if (when.Middle < now)
        {
            remarks.Add(new Remark("carry-look-now"));
        }

        return new(animal.Id, brood.Id, since, when, belief.LearnedFrom, remarks);
    }

    // A lost clutch frees her early, but the next ovary may not be ripe before it would have been.
    private static CarryAgain Dropped(
        Animal animal,
        Brood brood,
        Instant since,
        RestBelief belief,
        SpeciesProfile profile,
        List<Remark> remarks,
        Instant now
    )
    {
        remarks.Add(new Remark("carry-after-a-drop"));
        var rest = belief.Next(Barren(animal, since, now));
        var due =
            brood.FirstSeenBerried is { } seen && profile.EmbryoThermal.ReferenceDays is { } days
                ? Instant.Max(since, seen.Earliest + Duration.FromDays(days))
                : since;
        var (soon, late) = (Range(since, rest), Range(due, rest));
        return new(
            animal.Id,
            brood.Id,
            since,
            new(soon.Early, soon.Middle + ((late.Middle - soon.Middle) / 2), late.Late),
            belief.LearnedFrom,
            remarks
        );
    }

    private static double Barren(Animal animal, Instant since, Instant now) =>
        animal
            .SeenEmpty.Where(when => when.Latest <= now)
            .Select(when => (when.Earliest - since).TotalDays)
            .Where(days => days > 0)
            .DefaultIfEmpty(0)
            .Max();

    private static InstantRange Range(Instant since, Interval days) =>
        new(
            since + Duration.FromDays(days.Low),
            since + Duration.FromDays(days.Middle),
            since + Duration.FromDays(days.High)
        );

    private static double Square(double value) => value * value;
}
