using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>What to do about one brood this evening.</summary>
public enum TonightDeed
{
    /// <summary>Nothing: the night is not near.</summary>
    Wait,

    /// <summary>Look at the eggs before deciding.</summary>
    LookAtEggs,

    /// <summary>Put her into the box this evening.</summary>
    Isolate,

    /// <summary>She is soft after a moult: not this evening.</summary>
    LetHerHarden,

    /// <summary>She is in the box: dim the room, look with a torch.</summary>
    WatchTheBox,

    /// <summary>She is among the others: filter off, look with a torch.</summary>
    TorchInTheTank,

    /// <summary>Her eggs are off: look into their vessel.</summary>
    WatchTheEggs,

    /// <summary>Larvae came already: look for more.</summary>
    MoreMayFollow,
}

/// <summary>One brood this evening.</summary>
/// <param name="Brood">The brood.</param>
/// <param name="Animal">The female; none if she was never named.</param>
/// <param name="Place">Where she is, or where her eggs lie; none if unknown.</param>
/// <param name="Chance">Chance that larvae come in the night at hand, if none are out by now.</param>
/// <param name="OutAlready">Chance that the first are out already, looked for or not.</param>
/// <param name="Deed">What to do.</param>
/// <param name="NotBefore">Not before, after a moult; none where nothing is to be waited for.</param>
public sealed record TonightRow(
    BroodId Brood,
    AnimalId? Animal,
    VesselId? Place,
    Probability Chance,
    Probability OutAlready,
    TonightDeed Deed,
    Instant? NotBefore
);

/// <summary>The list for the evening: all broods that may hatch, the likeliest first.</summary>
/// <param name="Evening">The day on whose evening the night begins.</param>
/// <param name="Until">Its end, the noon after.</param>
/// <param name="Rows">The broods.</param>
/// <param name="Any">Chance that larvae of at least one brood come, broods taken as independent.</param>
public sealed record Tonight(
    LocalDate Evening,
    Instant Until,
    IReadOnlyList<TonightRow> Rows,
    Probability Any
)
{
    /// <summary>A chance from which somebody looks in the night; the share of nights a plan is ready for, too.</summary>
    public const double WorthLooking = 0.03;

    // Keepers tell of second pulses days after the first night. Practice, no source.
    private static readonly Duration MorePulses = Duration.FromDays(4);

    /// <summary>The list.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="underWay">The broods under way.</param>
    /// <param name="forecastOf">The forecast of a brood; none where there is none.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    public static Tonight Of(
        House house,
        IReadOnlyList<Brood> underWay,
        Func<BroodId, BroodForecast?> forecastOf,
        Instant now,
        DateTimeZone zone
    )
    {
        var evening = DayAxis.EveningOf(now, zone);
        var until = DayAxis.Noon(evening.PlusDays(1), zone);
        var rows = underWay
            .Select(brood => RowOf(house, brood, forecastOf, now, until))
            .OfType<TonightRow>()
            .OrderByDescending(row => row.Chance.Value)
            .ThenBy(row => row.Brood.Value)
            .ToList();
        var none = rows.Aggregate(1.0, (all, row) => all * row.Chance.Opposite);
        return new(evening, until, rows, Probability.FromFraction(Math.Clamp(1 - none, 0, 1)));
    }

    private static TonightRow? RowOf(
        House house,
        Brood brood,
        Func<BroodId, BroodForecast?> forecastOf,
        Instant now,
        Instant until
    )
    {
        var animal = brood.Animal is { } id ? house.Animal(id) : null;
        var place = brood.Dropped is not null ? brood.DroppedIn : animal?.PlaceAt(now) ?? brood.HatchingBox;
        if (brood.FirstLarvae is { } larvae)
        {
            return brood.HatchingOver is null && now - larvae.Latest < MorePulses
                ? new(
                    brood.Id,
                    brood.Animal,
                    place,
                    Probability.FromFraction(TailChance(now - larvae.Latest)),
                    Probability.FromFraction(1),
                    TonightDeed.MoreMayFollow,
                    null
                )
                : null;
        }

        if (forecastOf(brood.Id) is not { } forecast)
        {
            return null;
        }

        var out0 = forecast.OutAlready;
        var chance =
            out0.Opposite > 1e-9
                ? Math.Clamp((forecast.ChanceBy(until).Value - out0.Value) / out0.Opposite, 0, 1)
                : 1;
        var box = place is { } at && house.Vessel(at).Role is VesselRole.HatchingBox;
        var soft = animal
            ?.Moults.Select(moult => (Instant?)(moult.Latest + IsolatingSteps.SoftFor))
            .Where(hard => hard > now)
            .Max();
        return new(
            brood.Id,
            brood.Animal,
            place,
            Probability.FromFraction(chance),
            out0,
            Deed(forecast, chance, box, soft, now, until),
            soft
        );
    }

    private static TonightDeed Deed(
        BroodForecast forecast,
        double chance,
        bool box,
        Instant? soft,
        Instant now,
        Instant until
    )
    {
        var watched = chance >= WorthLooking || forecast.OutAlready.Value >= WorthLooking;
        return forecast.Isolation switch
        {
            { Code: IsolationCode.EggsAreOff } => TonightDeed.WatchTheEggs,
            _ when box => TonightDeed.WatchTheBox,
            { Code: IsolationCode.IsolateNow } => soft is null
                ? TonightDeed.Isolate
                : TonightDeed.LetHerHarden,
            { Code: IsolationCode.IsolateOn, At: var at } when at < until => soft is null || soft <= at
                ? TonightDeed.Isolate
                : TonightDeed.LetHerHarden,
            { Code: IsolationCode.LookNow } => TonightDeed.LookAtEggs,
            _ when watched && now < until => TonightDeed.TorchInTheTank,
            _ => TonightDeed.Wait,
        };
    }

    // One hatch in two has a second pulse or a tail, fewer each day: an assumption, no figure was found.
    private static double TailChance(Duration since) => 0.5 * Math.Exp(-Math.Max(0, since.TotalDays));
}
