using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>Looks ahead through hot days.</summary>
public static class HeatWave
{
    // Evaporation by formula holds within a third.
    private const double FormulaFactor = 1.33;

    // What a fan makes of it, within half: the formulas of still air that it is held against differ by nearly two.
    private const double FanFactor = 1.5;

    /// <summary>The coming hot days, or what is missing.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="wishes">What is expected.</param>
    public static Parsed<HeatDay> Of(Outlook outlook, HeatWishes? wishes = null) =>
        InPieces(outlook, wishes).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<Parsed<HeatDay>?> InPieces(Outlook outlook, HeatWishes? wishes = null)
    {
        wishes ??= new();
        if (HeatRoom.Refusal(wishes) is { } refused)
        {
            yield return Parsed<HeatDay>.No(refused);
            yield break;
        }

        var told = new RoomTold(outlook.House, outlook.Now, outlook.Zone);
        if (HeatRoom.Of(told, wishes) is not { } room)
        {
            yield return Parsed<HeatDay>.No("badday-room-unknown");
            yield break;
        }

        var vessels = new List<VesselHeat>();
        foreach (var vessel in LivedVessels.Of(outlook))
        {
            yield return null;
            foreach (var one in Told(outlook, vessel, told, room, wishes))
            {
                if (one is null)
                {
                    yield return null;
                }
                else
                {
                    vessels.Add(one);
                }
            }
        }

        ImmutableArray<VesselHeat> sorted =
        [
            .. vessels
                .OrderBy(one => one.ToLimit?.MiddleHours ?? double.PositiveInfinity)
                .ThenByDescending(one => one.ToLimit?.Chance.Value ?? 0)
                .ThenByDescending(one => one.WarmestCelsius.Middle),
        ];
        yield return Parsed<HeatDay>.Of(
            new(
                outlook.Now,
                room,
                wishes.Hours,
                [.. HeatSayings.First(sorted, outlook)],
                [CautionCode.MainsBesideSaltWater, CautionCode.Glass],
                sorted,
                [.. HeatSayings.Assumed(told, room, wishes)]
            )
        );
    }

    private static IEnumerable<VesselHeat?> Told(
        Outlook outlook,
        Vessel vessel,
        RoomTold told,
        RoomCourse room,
        HeatWishes wishes
    )
    {
        if (LivedVessels.LitresOf(outlook, vessel) is not { } litres)
        {
            yield break;
        }

        var body = VesselBody.OfVolume(Volume.FromLitres(litres));
        var (heater, isHeated, unheated) = told.Heating(vessel.Id);
        var cooling = CoolingBelief.Of(body, unheated, told.Room);
        var read = told.Of(vessel.Id);
        var ledger = outlook.LedgerOf(vessel.Id);
        var written = ledger?.Temperature.Celsius;
        var (now, isRead) = WarmthNow.Of(told, read, told.Course, room, cooling, heater, written);
        var scene = new WarmthScene
        {
            Body = body,
            Cooling = cooling,
            Room = room,
            StartCelsius = Math.Clamp(now, -5, 60),
            StartHourOfDay = told.HourOfDay,
            Salinity = Salinity.FromPractical(Math.Max(0, ledger?.SalinityPpt.Middle ?? 0)),
            RelativeHumidity = wishes.RelativeHumidity,
            HeaterCelsius = heater,
        };
        yield return null;
        WarmthAhead? still = null;
        foreach (var piece in WarmthAhead.InPieces(scene, wishes.Hours))
        {
            still = piece;
            yield return null;
        }

        WarmthAhead? fan = null;
        foreach (
            var piece in WarmthAhead.InPieces(
                scene with
                {
                    FanMetresPerSecond = wishes.FanMetresPerSecond,
                },
                wishes.Hours
            )
        )
        {
            fan = piece;
            yield return null;
        }

        var limit = LivedVessels.WarmLimit(outlook, vessel);
        var formula = 1000 * still!.EvaporationLitresPerDay;
        var lost = ledger is { EvaporationMillilitresPerDay: { Middle: > 1 } learned }
            ? learned.AtLeast(0)
            : Interval.FromPoints(formula / FormulaFactor, formula, formula * FormulaFactor);
        // The fan multiplies what is lost; a lid or a narrow mouth keeps doing its share.
        var more = fan!.EvaporationLitresPerDay / Math.Max(1e-9, still.EvaporationLitresPerDay);
        yield return new()
        {
            Vessel = vessel.Id,
            Limit = limit,
            NowCelsius = now,
            ToLimit = limit is null ? null : still.Reaches(limit.Value),
            ToLimitWithFan = limit is null ? null : fan.Reaches(limit.Value),
            WarmestCelsius = still.Warmest,
            WarmestWithFanCelsius = fan.Warmest,
            TimeConstantHours = cooling.TimeConstantHours,
            StretchesLearned = cooling.StretchesLearned,
            LostMillilitres = lost,
            LostWithFanMillilitres = Interval.FromPoints(
                Math.Max(lost.Low, lost.Low * more / FanFactor),
                Math.Max(lost.Middle, lost.Middle * more),
                Math.Max(lost.High, lost.High * more * FanFactor)
            ),
            IceGramsPerKelvin = body.IceGramsPerKelvin(Math.Clamp(now, 0, 60)),
            SixHourly = [.. Enumerable.Range(0, (wishes.Hours / 6) + 1).Select(i => still.At(6 * i))],
            Assumed =
            [
                .. HeatSayings.AssumedOf(
                    vessel,
                    cooling,
                    isRead,
                    told.Course is null ? written : null,
                    isHeated,
                    heater,
                    outlook.Now,
                    limit
                ),
            ],
        };
    }
}
