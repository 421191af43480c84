using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>The adults of a house as what is due for them is asked.</summary>
internal sealed record AdultScene(
    House House,
    HouseProfiles Profiles,
    Func<BroodId, BroodForecast?> ForecastOf,
    RestsOfHouse Rests,
    Instant Now,
    DateTimeZone Zone
)
{
    /// <summary>How long an animal is new, and how long what nobody minds is asked for.</summary>
    public static readonly Duration WhoIsNew = Duration.FromDays(60);

    /// <summary>Adults that live here, as far as known.</summary>
    public IReadOnlyList<Animal> Alive { get; } =
    [
        .. House.Animals.Where(animal =>
            animal.Name is not null && (animal.Died is not { } died || died.Latest > Now)
        ),
    ];

    public LocalDate DateOf(Instant instant) => instant.InZone(Zone).Date;

    /// <summary>Eight in the morning of the next day.</summary>
    public Instant Morning(Instant after) => DayAxis.At(DateOf(after).PlusDays(1), new LocalTime(8, 0), Zone);

    /// <summary>Whether an animal carried in this house, so that it is neither new nor in need of conditioning.</summary>
    public static bool HasBred(Animal animal) => animal.Broods.Count > 0;

    /// <summary>Whether an animal is in a hatching box now.</summary>
    public bool IsBox(Animal animal) =>
        animal.PlaceAt(Now) is { } place && House.Vessel(place).Role is VesselRole.HatchingBox;

    /// <summary>Something to be done; who makes it says when.</summary>
    public static PlannedAction Make(string code, Subject about, string occasion = "1") =>
        new()
        {
            Key = ActionKey.Of(code, about, occasion),
            Code = code,
            About = about,
            From = default,
            By = default,
            Reason = new Remark(code),
            Door = new(DoorCode.MarkDone, about),
        };
}
