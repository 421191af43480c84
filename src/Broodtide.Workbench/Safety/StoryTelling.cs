using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>Tells the story of a vessel from the house and its ledger.</summary>
internal sealed class StoryTelling
{
    // A fill that stands longer is begun later: what was long ago no longer tells.
    private const int MostDays = 45;
    private const int DaysAgain = 15;
    private const int HoursOfPiece = 240;

    // Share of what has settled that a siphon takes; and water of a jar whose depth nobody tells.
    internal const double SiphonedShare = 0.7;

    // A larva's dry mass: penaeid zoeae end at 62 ug (abstract); of Caridina nothing was read.
    private const double LarvaDryMicrograms = 40;

    // A small sponge: uncertain by ten times (practice).
    private const double SpongeSquareCentimetres = 150;

    private readonly House _house;
    private readonly Vessel _vessel;
    private readonly VesselLedger _ledger;
    private readonly IReadOnlyList<Occurrence> _told;
    private readonly LampAndAir _around;
    private readonly Instant _now;
    private readonly double _hazardPerDay;
    private readonly List<Remark> _assumes = [];
    private readonly List<FoodGiven> _foods = [];
    private Instant _start;
    private readonly IReadOnlyList<WaterMean> _means;
    private int _hours;

    private StoryTelling(
        House house,
        Vessel vessel,
        VesselLedger ledger,
        double hazardPerDay,
        DateTimeZone zone,
        Instant now,
        IReadOnlyList<WaterMean> means
    )
    {
        _means = means;
        (_house, _vessel, _ledger, _now, _hazardPerDay) = (house, vessel, ledger, now, hazardPerDay);
        _told = vessel.Standing?.Occurrences ?? [];
        _around = new(house, vessel.Id, zone);
    }

    /// <summary>The story of the water that stands in a vessel: nothing in each piece but the last.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="vessel">The vessel; it must stand.</param>
    /// <param name="ledger">The ledger of that water.</param>
    /// <param name="profile">Whose numbers apply.</param>
    /// <param name="zone">Where the lamp's clock ticks.</param>
    /// <param name="now">The present.</param>
    /// <param name="means">What sensors showed of the waters of the house, by time; nothing if left out.</param>
    public static IEnumerable<VesselStory?> InPieces(
        House house,
        Vessel vessel,
        VesselLedger ledger,
        Species.SpeciesProfile profile,
        DateTimeZone zone,
        Instant now,
        IReadOnlyList<WaterMean>? means = null
    ) => new StoryTelling(house, vessel, ledger, HazardPerDay(profile), zone, now, means ?? []).Tell();

    private static double HazardPerDay(Species.SpeciesProfile profile) =>
        profile.Find("larval-hazard")?.Value ?? 0.02;

    private IEnumerable<VesselStory?> Tell()
    {
        var began =
            _ledger.Track.Count > 0 ? Instant.Min(_ledger.Track[0].At, _now)
            : _ledger.Rows.Count > 0 ? Instant.Min(_ledger.Rows[0].When, _now)
            : _now;
        var days = (int)Math.Max(0, (_now - began).TotalDays - MostDays + DaysAgain) / DaysAgain * DaysAgain;
        _start = Floor(began + Duration.FromDays((_now - began).TotalDays > MostDays ? days : 0));
        var nowHour = (int)Math.Floor((_now - _start).TotalHours);
        _hours = nowHour + VesselStory.HoursAhead;
        var water = new Drawn(_ledger, _start, _hours);
        var warmth = new Warmth(_told, _ledger, _start, _means);
        var larvae = new LarvaeTold(_told, _vessel.Id, _hazardPerDay);
        var hours = ImmutableArray.CreateBuilder<VesselHour>(_hours);
        for (var hour = 0; hour < _hours; hour++)
        {
            var middle = _start + Duration.FromHours(hour) + Duration.FromMinutes(30);
            hours.Add(
                new VesselHour
                {
                    Water = Volume.FromLitres(water.Litres(hour + 1)),
                    // An earlier hour may hold what was never there, until a later reading put it right.
                    Salinity = Salinity.FromPractical(
                        Math.Min(water.Salinity(hour), SafetyTelling.MostSalinity)
                    ),
                    Temperature = warmth.At(Instant.Min(middle, _now)),
                    LightMicromoles = _around.MicromolesAt(middle),
                    Air = _around.AirAt(Instant.Min(middle, _now)),
                    Larvae = larvae.At(middle),
                    LarvaDryMicrograms = LarvaDryMicrograms,
                }
            );
            if (hour % HoursOfPiece == 0)
            {
                yield return null;
            }
        }

        var events = Events(water);
        yield return null;
        var learned = new ReadingsToLearn(_house, _told, _vessel.Id, hours, _start, nowHour);
        Suppose(warmth);
        _assumes.AddRange(learned.Remarks);
        yield return new VesselStory
        {
            Vessel = _vessel.Id,
            Start = _start,
            NowHour = nowHour,
            Scene = new VesselScene
            {
                Site = Site(water.Litres(0), began),
                Hours = hours.ToImmutable(),
                Events = events,
                WaterAtStart = Volume.FromLitres(water.Litres(0)),
            },
            Believed = new VesselStart(),
            Readings = learned.All,
            Foods = [.. _foods],
            Assumes = [.. _assumes],
        };
    }

    private VesselSite Site(double litres, Instant began)
    {
        // A jar as high as wide: V = a^3, walls and floor 5 a^2.
        var side = Math.Cbrt(litres / 1000);
        var hasFilter =
            _house.Told<FilterChanged>(Subject.Of(_vessel.Id)) is [.., var last]
            && last.Fact is FilterChanged { On: true };
        return new VesselSite
        {
            DepthMetres = Math.Clamp(side, 0.03, 0.4),
            WallSquareCentimetresPerLitre = Math.Clamp(5e4 * side * side / litres, 50, 2000),
            FilterSquareCentimetres = hasFilter ? SpongeSquareCentimetres : 0,
            RipeDays = Math.Max(0, (_start - began).TotalDays),
        };
    }

    private ImmutableArray<VesselEvent> Events(Drawn water)
    {
        var events = new List<VesselEvent>();
        foreach (var occurrence in _told)
        {
            var hour = (int)Math.Floor((occurrence.Happened.Middle - _start).TotalHours);
            if (hour < 0 || occurrence.Happened.Middle > _now)
            {
                continue;
            }

            events.AddRange(Done(occurrence, hour));
        }

        return [.. Possible(events.OrderBy(done => done.Hour), water)];
    }

    private IEnumerable<VesselEvent> Done(Occurrence occurrence, int hour)
    {
        switch (occurrence.Fact)
        {
            case WaterMoved { Evaporated: false } moved
                when moved.From == _vessel.Id && moved.To != _vessel.Id:
                return moved.Volume.AsVolume() is { } drawn ? [Moved(hour, drawn, default)] : [];
            case WaterMoved { Evaporated: false } moved when moved.To == _vessel.Id:
                // Fresh water dilutes: the ledger's volume says that already.
                return
                    moved.Volume.AsVolume() is { } added
                    && (moved.From is not null || moved.Salinity is { Value: > 0 })
                    ? [Moved(hour, default, added, From(moved.From, occurrence.Happened.Earliest))]
                    : [];
            case VesselSiphoned siphoned:
                var share = new VesselEvent.Siphoned(hour, Probability.FromFraction(SiphonedShare));
                return siphoned.Volume.AsVolume() is { } taken
                    ? [share, Moved(hour, taken, default)]
                    : [share];
            case CultureHarvested harvested when harvested.Volume.AsVolume() is { } gone:
                return [Moved(hour, gone, default)];
            case CrossingMade crossing when crossing.To == _vessel.Id:
                return crossing.Entered.AsVolume() is { } entered ? [Moved(hour, default, entered)] : [];
            case VesselFed fed when fed.Vessel == _vessel.Id:
                return Fed(fed, occurrence, hour);
            case VesselFed fed when fed.From == _vessel.Id:
                return fed.Volume.AsVolume() is { } given ? [Moved(hour, given, default)] : [];
            default:
                return [];
        }
    }

    private IEnumerable<VesselEvent> Fed(VesselFed fed, Occurrence occurrence, int hour)
    {
        if (fed.Food is FoodKind.GreenWater && fed.Volume.AsVolume() is { } volume)
        {
            return [Moved(hour, default, volume, GreenWater.Of(_house, fed, occurrence.Happened.Earliest))];
        }

        var feed = FoodComposition.Find(_house, fed.Feed);
        if (FoodComposition.Of(fed, feed) is { } dry)
        {
            _foods.Add(new(hour, fed.Food, fed.Feed, dry.Dry, dry.Composition));
            var into = new VesselEvent.Fed(hour, dry.Dry, dry.Composition);
            return fed.Volume.AsVolume() is { } with ? [into, Moved(hour, default, with)] : [into];
        }

        if (fed.Food is FoodKind.GreenWater or FoodKind.Yeast or FoodKind.Powder)
        {
            Once(new Remark("safety-fed-without-amount", new Argument("food", Words(fed.Food))));
        }

        return fed.Volume.AsVolume() is { } liquid ? [Moved(hour, default, liquid)] : [];
    }

    private IncomingWater From(VesselId? source, Instant when) =>
        source is { } id && _house.Vessel(id).Role is VesselRole.AlgaeCulture
            ? GreenWater.Of(_house, id, when)
            : IncomingWater.Clean;

    private void Suppose(Warmth warmth)
    {
        if (!_around.KnowsAir)
        {
            Once(new Remark("safety-air-never-said", new Argument("vessel", _vessel.Id)));
        }

        if (!_around.KnowsLight)
        {
            Once(new Remark("safety-light-never-said", new Argument("vessel", _vessel.Id)));
        }
        else if (!_around.KnowsBrightness)
        {
            Once(new Remark("safety-brightness-never-said", new Argument("vessel", _vessel.Id)));
        }

        if (!warmth.IsRead)
        {
            Once(
                new Remark(
                    "safety-warmth-never-read",
                    new("vessel", _vessel.Id),
                    new("celsius", _ledger.Temperature.Celsius)
                )
            );
        }
    }

    private void Once(Remark remark)
    {
        if (!_assumes.Contains(remark))
        {
            _assumes.Add(remark);
        }
    }

    // What the ledger believes of volumes and what a keeper writes differ: no more is taken than is there.
    private static IEnumerable<VesselEvent> Possible(IEnumerable<VesselEvent> events, Drawn water)
    {
        var (hour, litres) = (-1, 0.0);
        foreach (var done in events)
        {
            if (done.Hour != hour)
            {
                (hour, litres) = (done.Hour, water.Litres(done.Hour));
            }

            if (done is VesselEvent.WaterMoved moved)
            {
                var taken = Volume.FromLitres(Math.Min(moved.Taken.Litres, 0.95 * litres));
                litres += moved.Added.Litres - taken.Litres;
                yield return moved with
                {
                    Taken = taken,
                };
            }
            else
            {
                yield return done;
            }
        }
    }

    private static VesselEvent.WaterMoved Moved(
        int hour,
        Volume taken,
        Volume added,
        IncomingWater? incoming = null
    ) => new(hour, taken, added, incoming ?? IncomingWater.Clean);

    internal static string Words(FoodKind food) =>
        System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(food.ToString());

    private static Instant Floor(Instant at) =>
        Instant.FromUnixTimeSeconds((long)Math.Floor(at.ToUnixTimeSeconds() / 3600.0) * 3600);
}
