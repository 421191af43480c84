using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>When the cultures that stand can be used, told where the plan asks for them.</summary>
internal static class FoodReadiness
{
    /// <summary>When the first film that stands was begun; none if none does.</summary>
    public static Instant? FilmBegan(PlanScene scene) =>
        Films(scene).Select(culture => (Instant?)culture.Started).Min();

    /// <summary>When the films that stand will be thick enough.</summary>
    public static IEnumerable<Remark> OfFilms(PlanScene scene) =>
        Films(scene).Select(culture => Told(culture, "amount-film-ready", "amount-film-ready-now"));

    /// <summary>When the green water that stands can be harvested.</summary>
    public static IEnumerable<Remark> OfGreenWater(PlanScene scene) =>
        scene
            .Cultures.Where(culture => !culture.IsFilm && culture.Described.Alga is not CultureKind.Rotifers)
            .Select(culture => Told(culture, "amount-green-water-ready", "amount-green-water-ready-now"));

    /// <summary>Whether a vessel was described as something else than green water.</summary>
    public static bool IsNoGreenWater(PlanScene scene, VesselId vessel) =>
        scene.Cultures.Any(culture =>
            culture.Vessel == vessel && (culture.IsFilm || culture.Described.Alga is CultureKind.Rotifers)
        );

    private static IEnumerable<CultureState> Films(PlanScene scene) =>
        scene.Cultures.Where(culture => culture.IsFilm);

    private static Remark Told(CultureState culture, string later, string ready) =>
        culture.Ready is { IsReady: false, Middle: { } middle } so
            ? new Remark(
                later,
                new("vessel", culture.Vessel),
                new("earliest", so.Earliest ?? middle),
                new("middle", middle),
                new("latest", so.Latest ?? middle + Duration.FromDays(60))
            )
        : culture.Ready.IsReady ? new Remark(ready, new Argument("vessel", culture.Vessel))
        : new Remark("amount-culture-not-ready", new Argument("vessel", culture.Vessel));
}
