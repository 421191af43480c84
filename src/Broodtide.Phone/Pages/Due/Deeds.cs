using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Language;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Phone.Pages.Due;

/// <summary>What the key of an action writes when it is pressed: what happened, and that the action is done.</summary>
internal static class Deeds
{
    /// <summary>The facts of the deed; none where more must be said than one key can.</summary>
    public static IReadOnlyList<Fact>? Of(PlannedAction action, House house) =>
        action.Door.Code switch
        {
            DoorCode.MarkDone => [Done(action)],
            DoorCode.WriteWaterMove => Poured(action) is { } poured ? [poured, Done(action)] : null,
            DoorCode.WriteIsolated => Isolated(action, house) is { } moved ? [moved, Done(action)] : null,
            _ => null,
        };

    /// <summary>The action is done, and nothing else is said of it.</summary>
    public static ActionDone Done(PlannedAction action) => new(action.Key, About(action));

    /// <summary>The action is left out, for good or until an instant.</summary>
    public static ActionSkipped Skipped(PlannedAction action, Instant? until) =>
        new(action.Key, About(action), Until: until);

    /// <summary>One portion of a top-up, as it is told.</summary>
    public static WaterMoved? Poured(PlannedAction action) =>
        action.About.Kind is SubjectKind.Vessel
        && action.Amounts.Select(amount => amount["eachLitres"]).OfType<double>().FirstOrDefault()
            is > 0
                and var litres
            ? new WaterMoved(To: new VesselId(action.About.Id), Volume: Typed(Volume.FromLitres(litres)))
            : null;

    /// <summary>A volume as the sentence tells it.</summary>
    public static TypedNumber Typed(Volume volume) =>
        TypedNumber.Of(Math.Round(Sayings.Pourable(volume).Millilitres), "mL");

    private static AnimalIsolated? Isolated(PlannedAction action, House house)
    {
        if (
            action.About.Kind is not SubjectKind.Brood
            || house.Brood(new BroodId(action.About.Id)) is not { Animal: { } animal } brood
        )
        {
            return null;
        }

        var boxes = house.Vessels.Where(vessel => vessel.Role is VesselRole.HatchingBox).Take(2).ToList();
        return boxes is [var box] ? new AnimalIsolated(animal, box.Id, brood.Id) : null;
    }

    private static Guid? About(PlannedAction action) =>
        action.About.Kind is SubjectKind.House ? null : action.About.Id;
}
