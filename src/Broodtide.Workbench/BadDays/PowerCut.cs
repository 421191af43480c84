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
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>One vessel without air.</summary>
public sealed record VesselBreath
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>Water in it, litres.</summary>
    public required double Litres { get; init; }

    /// <summary>Animals that were counted as breathing in it.</summary>
    public required Interval Animals { get; init; }

    /// <summary>Oxygen now, mg/L.</summary>
    public required Interval OxygenNow { get; init; }

    /// <summary>Oxygen from which on is good, mg/L, as the species' profile says.</summary>
    public required LifeLimit Low { get; init; }

    /// <summary>Oxygen below which harm is near, mg/L; the same limit where the profile has no other.</summary>
    public required LifeLimit Danger { get; init; }

    /// <summary>Hours until oxygen is below what is good.</summary>
    public required FirstPassage ToLow { get; init; }

    /// <summary>Hours until harm is near.</summary>
    public required FirstPassage ToDanger { get; init; }

    /// <summary>The same with a battery pump bubbling gently.</summary>
    public required FirstPassage ToDangerWithBattery { get; init; }

    /// <summary>Hours until it is too cold; none where nobody read the room, or it is not heated.</summary>
    public FirstPassage? ToCold { get; init; }

    /// <summary>What is supposed.</summary>
    public required ImmutableArray<Remark> Assumed { get; init; }
}

/// <summary>Hours without mains: what to do first, then each vessel, the one that comes into danger first in front.</summary>
/// <param name="Now">The instant it was made for.</param>
/// <param name="Since">Since when the mains are known to have failed; none if that was not written.</param>
/// <param name="First">What to do, first things first.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Vessels">The vessels.</param>
/// <param name="Assumed">What is supposed for all of them.</param>
public sealed record PowerDay(
    Instant Now,
    Instant? Since,
    ImmutableArray<Remark> First,
    ImmutableArray<CautionCode> Cautions,
    ImmutableArray<VesselBreath> Vessels,
    ImmutableArray<Remark> Assumed
);

/// <summary>Looks ahead through a power cut, or past a dead pump.</summary>
public static class PowerCut
{
    // Stirred at half of the earliest time that was worked out, between half an hour and four hours (this project's choice).
    private const double LeastStirHours = 0.5;
    private const double MostStirHours = 4;

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
        HeatWave.Lived(outlook).Where(vessel => vessel.Role is not VesselRole.AlgaeCulture);

    private static IEnumerable<PowerDay?> Pieces(Outlook outlook, List<Vessel> vessels, bool isMains)
    {
        var told = new RoomTold(outlook.House, outlook.Now, outlook.Zone);
        var breaths = new List<VesselBreath>();
        foreach (var vessel in vessels)
        {
            foreach (var step in outlook.SafetySteps(vessel.Id))
            {
                step();
                yield return null;
            }

            var ground = Breath.OfSea(outlook, vessel.Id) ?? Breath.OfFresh(outlook, vessel);
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
            var still = VesselTwin
                .Forward(
                    ground.Members,
                    isMains ? Breath.Dark(ground, AirFlow.None, celsius) : Breath.Still(ground),
                    hours
                )
                .Traces;
            yield return null;
            var battery = VesselTwin
                .Forward(ground.Members, Breath.Dark(ground, AirFlow.Gentle, celsius), hours)
                .Traces;
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
            [.. isMains ? FirstOfMains(sorted, outlook) : FirstOfPump(sorted)],
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
            .LimitsFor(HeatWave.StageOf(outlook, vessel) ?? LifeStage.EarlyZoea)
            .Where(limit => limit.Quantity is LimitedQuantity.Oxygen && !limit.IsUpper)
            .ToList();
        var low = oxygen.FirstOrDefault(limit => !limit.IsDanger) ?? oxygen.FirstOrDefault();
        return low is null ? null : (low, oxygen.FirstOrDefault(limit => limit.IsDanger) ?? low);
    }

    private static IEnumerable<WarmthAhead?> Warmth(Outlook outlook, Vessel vessel, RoomTold told)
    {
        if (told.Course is not { } room || HeatWave.LitresOf(outlook, vessel) is not { } litres)
        {
            return [];
        }

        var body = VesselBody.OfVolume(Volume.FromLitres(litres));
        var (heater, _, unheated) = told.Heating(vessel.Id);
        var cooling = CoolingBelief.Of(body, unheated, told.Room);
        var (now, isRead) = HeatWave.NowOf(told, told.Of(vessel.Id), room, room, cooling, heater);
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
            .LimitsFor(HeatWave.StageOf(outlook, vessel) ?? LifeStage.EarlyZoea)
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

    private static IEnumerable<Remark> FirstOfMains(ImmutableArray<VesselBreath> vessels, Outlook outlook)
    {
        foreach (var remark in Worst(vessels))
        {
            yield return remark;
        }

        yield return new Remark("badday-power-no-food");
        yield return Stir(vessels);
        yield return new Remark("badday-power-battery");
        yield return new Remark("badday-power-lids");
        if (vessels.FirstOrDefault(one => one.ToCold?.Chance.Value >= 0.05) is { ToCold: { } cold } chilled)
        {
            yield return new Remark(
                "badday-power-cold",
                new("vessel", chilled.Vessel),
                new("hours", Math.Round(cold.MiddleHours ?? cold.EarlyHours ?? cold.HorizonHours, 1))
            );
        }

        if (
            outlook.House.Vessels.Any(vessel =>
                vessel.Role is VesselRole.AlgaeCulture && vessel.Standing is not null
            )
        )
        {
            yield return new Remark("badday-power-cultures");
        }

        yield return new Remark("badday-sponge-stands");
        yield return new Remark("badday-power-after");
    }

    private static IEnumerable<Remark> FirstOfPump(ImmutableArray<VesselBreath> vessels)
    {
        foreach (var remark in Worst(vessels))
        {
            yield return remark;
        }

        yield return new Remark("badday-pump-look");
        yield return new Remark("badday-pump-borrow");
        yield return Stir(vessels);
        yield return new Remark("badday-power-no-food");
        yield return new Remark("badday-sponge-stands");
        yield return new Remark("badday-pump-above");
    }

    private static IEnumerable<Remark> Worst(ImmutableArray<VesselBreath> vessels)
    {
        if (vessels.IsEmpty)
        {
            yield return new Remark("badday-nothing-breathes");
        }
        else if (vessels[0] is { ToDanger: { EarlyHours: not null } soon } worst)
        {
            yield return new Remark(
                "badday-breath-first",
                new("vessel", worst.Vessel),
                new("hours", Math.Round(soon.MiddleHours ?? soon.EarlyHours ?? soon.HorizonHours, 1)),
                new("earlyHours", Math.Round(soon.EarlyHours ?? soon.HorizonHours, 1)),
                new("chance", soon.Chance.Value)
            );
        }
        else
        {
            yield return new Remark(
                "badday-breath-holds",
                new Argument("hours", vessels[0].ToDanger.HorizonHours)
            );
        }
    }

    private static Remark Stir(ImmutableArray<VesselBreath> vessels)
    {
        var early = vessels
            .Select(one => one.ToDanger.EarlyHours ?? Breath.Horizon)
            .DefaultIfEmpty(Breath.Horizon)
            .Min();
        return new(
            "badday-power-stir",
            new Argument(
                "everyHours",
                Math.Round(2 * Math.Clamp(early / 2, LeastStirHours, MostStirHours)) / 2
            )
        );
    }
}
