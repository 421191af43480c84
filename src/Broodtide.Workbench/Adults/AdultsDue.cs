using Broodtide.Domain;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>
/// What is due for adults, apart from a brood's own plan: new animals apart, sexing, the other sex, conditioning, looks for
/// eggs, and the way back from the box. The intervals of looks are common practice without a source.
/// </summary>
internal static class AdultsDue
{
    public static IEnumerable<PlannedAction> Of(
        House house,
        HouseProfiles profiles,
        Func<BroodId, BroodForecast?> forecastOf,
        RestsOfHouse rests,
        Instant now,
        DateTimeZone zone
    )
    {
        var scene = new AdultScene(house, profiles, forecastOf, rests, now, zone);
        return
        [
            .. NewcomersDue.KeptApart(scene),
            .. NewcomersDue.Sexes(scene),
            .. NewcomersDue.Conditioning(scene),
            .. scene.Alive.SelectMany(animal => CarriersDue.LooksForEggs(scene, animal)),
            .. scene.Alive.SelectMany(animal => CarriersDue.WayBack(scene, animal)),
            .. CarriersDue.WhoIsEmpty(scene),
        ];
    }
}
