using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.BadDays;

/// <summary>Looks ahead through a power cut, or past a dead pump.</summary>
public static class PowerCut
{
    /// <summary>Every vessel without mains from now on.</summary>
    /// <param name="outlook">What is known.</param>
    public static PowerDay Of(Outlook outlook) => InPieces(outlook).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <param name="outlook">What is known.</param>
    public static IEnumerable<PowerDay?> InPieces(Outlook outlook) =>
        Pieces(outlook, [.. Breathing(outlook)], isMains: true);

    /// <summary>One vessel whose air pump is dead, all else going on.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    public static IEnumerable<PowerDay?> DeadPumpInPieces(Outlook outlook, VesselId vessel) =>
        Pieces(outlook, [.. Breathing(outlook).Where(one => one.Id == vessel)], isMains: false);

    /// <summary>The same at once.</summary>
    /// <inheritdoc cref="DeadPumpInPieces"/>
    public static PowerDay DeadPump(Outlook outlook, VesselId vessel) =>
        DeadPumpInPieces(outlook, vessel).Last()!;

    /// <summary>Since when the mains are gone, as the journal tells; none while they are there.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="now">The present.</param>
    public static Instant? FailedSince(House house, Instant now)
    {
        Instant? since = null;
        foreach (var told in house.Account.About(Subject.House))
        {
            if (told.Happened.Middle <= now)
            {
                since = told.Fact switch
                {
                    PowerFailed => since ?? told.Happened.Middle,
                    PowerRestored => null,
                    _ => since,
                };
            }
        }

        return since;
    }

    private static IEnumerable<Vessel> Breathing(Outlook outlook) =>
        LivedVessels.Of(outlook).Where(vessel => vessel.Role is not VesselRole.AlgaeCulture);

    private static IEnumerable<PowerDay?> Pieces(Outlook outlook, List<Vessel> vessels, bool isMains)
    {
        var told = new RoomTold(outlook.House, outlook.Now, outlook.Zone);
        var breaths = new List<VesselBreath>();
        var untold = new List<Remark>();
        foreach (var vessel in vessels)
        {
            foreach (var step in outlook.SafetySteps(vessel.Id))
            {
                step();
                yield return null;
            }

            Remark? no = null;
            var ground = Breath.OfSea(outlook, vessel.Id) ?? Breath.OfFresh(outlook, vessel, out no);
            if (no is { } reason)
            {
                untold.Add(reason);
            }

            yield return null;
            if (ground is null || Limits(outlook, vessel) is not { } limits)
            {
                continue;
            }

            WarmthAhead? warmth = null;
            foreach (var piece in isMains ? Warmth(outlook, vessel, told) : [])
            {
                warmth = piece;
                yield return null;
            }

            var celsius = warmth is null
                ? (_, before) => before
                : new Func<int, double, double>((ahead, _) => warmth.At(ahead).Middle);
            var hours = Math.Min(Breath.Horizon, ground.Horizon);
            VesselScene Scene(BreathGround of, AirFlow air) =>
                isMains ? Breath.Dark(of, air, celsius) : Breath.Aired(of, air);
            var still = VesselTwin.Forward(ground.Members, Scene(ground, AirFlow.None), hours).Traces;
            yield return null;
            var battery = VesselTwin.Forward(ground.Members, Scene(ground, AirFlow.Gentle), hours).Traces;
            yield return null;
            breaths.Add(Told(outlook, vessel, ground, limits, still, battery, warmth));
        }

        ImmutableArray<VesselBreath> sorted =
        [
            .. breaths
                .OrderBy(one => one.ToDanger.MiddleHours ?? double.PositiveInfinity)
                .ThenByDescending(one => one.ToDanger.Chance.Value)
                .ThenBy(one => one.ToLow.MiddleHours ?? double.PositiveInfinity)
                .ThenByDescending(one => one.ToLow.Chance.Value)
                .ThenBy(one => one.Litres),
        ];
        var since = FailedSince(outlook.House, outlook.Now);
        yield return new(
            outlook.Now,
            since,
            [.. isMains ? PowerFirst.OfMains(sorted, untold, outlook) : PowerFirst.OfPump(sorted, untold)],
            [CautionCode.MainsBesideSaltWater, CautionCode.WetHandsChargingPhone],
            sorted,
            [
                new Remark("badday-hours-from-now"),
                new Remark("badday-breath-by-twin"),
                .. told.Course is null && isMains
                    ? [new Remark("badday-warmth-stays")]
                    : Array.Empty<Remark>(),
            ]
        );
    }

    private static (LifeLimit Low, LifeLimit Danger)? Limits(Outlook outlook, Vessel vessel)
    {
        var oxygen = outlook
            .Profiles.Of(vessel)
            .LimitsFor(LivedVessels.StageOf(outlook, vessel) ?? LifeStage.EarlyZoea)
            .Where(limit => limit.Quantity is LimitedQuantity.Oxygen && !limit.IsUpper)
            .ToList();
        var low = oxygen.FirstOrDefault(limit => !limit.IsDanger) ?? oxygen.FirstOrDefault();
        return low is null ? null : (low, oxygen.FirstOrDefault(limit => limit.IsDanger) ?? low);
    }

    private static IEnumerable<WarmthAhead?> Warmth(Outlook outlook, Vessel vessel, RoomTold told)
    {
        if (told.Course is not { } room || LivedVessels.LitresOf(outlook, vessel) is not { } litres)
        {
            return [];
        }

        var body = VesselBody.OfVolume(Volume.FromLitres(litres));
        var (heater, _, unheated) = told.Heating(vessel.Id);
        var cooling = CoolingBelief.Of(body, unheated, told.Room);
        var (now, isRead) = WarmthNow.Of(told, told.Of(vessel.Id), room, room, cooling, heater);
        return isRead
            ? WarmthAhead.InPieces(
                new()
                {
                    Body = body,
                    Cooling = cooling,
                    Room = room,
                    StartCelsius = Math.Clamp(now, -5, 60),
                    StartHourOfDay = told.HourOfDay,
                },
                Breath.Horizon
            )
            : [];
    }

    private static VesselBreath Told(
        Outlook outlook,
        Vessel vessel,
        BreathGround ground,
        (LifeLimit Low, LifeLimit Danger) limits,
        VesselTraces still,
        VesselTraces battery,
        WarmthAhead? warmth
    )
    {
        var hour = ground.Scene.Hours[Math.Min(ground.Members.Hour, ground.Scene.Hours.Length - 1)];
        var cold = outlook
            .Profiles.Of(vessel)
            .LimitsFor(LivedVessels.StageOf(outlook, vessel) ?? LifeStage.EarlyZoea)
            .FirstOrDefault(limit => limit.Quantity is LimitedQuantity.Temperature && !limit.IsUpper);
        return new()
        {
            Vessel = vessel.Id,
            Litres = hour.Water.Litres,
            Animals = hour.Larvae,
            OxygenNow = still.Quantiles(VesselQuantity.Oxygen, 0),
            Low = limits.Low,
            Danger = limits.Danger,
            ToLow = Breath.Passage(still, limits.Low.Value),
            ToDanger = Breath.Passage(still, limits.Danger.Value),
            ToDangerWithBattery = Breath.Passage(battery, limits.Danger.Value),
            ToCold = cold is null ? null : warmth?.FallsTo(cold.Value),
            Assumed = ground.Assumed,
        };
    }
}
