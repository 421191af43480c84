using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>What a keeper expects of hot days.</summary>
public sealed record HeatWishes
{
    /// <summary>The hottest that the room is expected to get by day, degC; as in the last days if left out.</summary>
    public double? HottestCelsius { get; init; }

    /// <summary>The coolest of the night, degC; by the readings, or six below the hottest, if left out.</summary>
    public double? CoolestCelsius { get; init; }

    /// <summary>Air that a fan would move over the surface, m/s; a small one beside it makes about 1 (practice).</summary>
    public double FanMetresPerSecond { get; init; } = 1;

    /// <summary>Dampness of the room's air, 0 to 1.</summary>
    public double RelativeHumidity { get; init; } = 0.5;

    /// <summary>Hours to look ahead, 6 to 120.</summary>
    public int Hours { get; init; } = 72;
}

/// <summary>One vessel in hot days.</summary>
public sealed record VesselHeat
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>The warm limit of what lives in it; none for a culture or a species without one.</summary>
    public required LifeLimit? Limit { get; init; }

    /// <summary>Warmth now as believed, degC.</summary>
    public required double NowCelsius { get; init; }

    /// <summary>Hours to the limit if nothing is done; none where there is no limit.</summary>
    public required FirstPassage? ToLimit { get; init; }

    /// <summary>The same with a fan over the open surface.</summary>
    public required FirstPassage? ToLimitWithFan { get; init; }

    /// <summary>The warmest it comes to, degC.</summary>
    public required Interval WarmestCelsius { get; init; }

    /// <summary>The same with a fan.</summary>
    public required Interval WarmestWithFanCelsius { get; init; }

    /// <summary>Hours in which it follows the room by 63 %.</summary>
    public required Interval TimeConstantHours { get; init; }

    /// <summary>From how many stretches of readings that was learned.</summary>
    public required int StretchesLearned { get; init; }

    /// <summary>Fresh water lost a day as it is, mL: learned by its ledger where it has one.</summary>
    public required Interval LostMillilitres { get; init; }

    /// <summary>The same with a fan: what must be topped up then.</summary>
    public required Interval LostWithFanMillilitres { get; init; }

    /// <summary>Ice that cools it by a degree, g.</summary>
    public required double IceGramsPerKelvin { get; init; }

    /// <summary>Warmth every six hours from now, degC.</summary>
    public required ImmutableArray<Interval> SixHourly { get; init; }

    /// <summary>What is supposed.</summary>
    public required ImmutableArray<Remark> Assumed { get; init; }
}

/// <summary>Hot days: what to do first, then each vessel, the one that comes to its limit first in front.</summary>
/// <param name="Now">The instant it was made for.</param>
/// <param name="Room">The room that was supposed.</param>
/// <param name="Hours">Hours looked ahead.</param>
/// <param name="First">What to do, first things first.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Vessels">The vessels.</param>
/// <param name="Assumed">What is supposed for all of them.</param>
public sealed record HeatDay(
    Instant Now,
    RoomCourse Room,
    int Hours,
    ImmutableArray<Remark> First,
    ImmutableArray<CautionCode> Cautions,
    ImmutableArray<VesselHeat> Vessels,
    ImmutableArray<Remark> Assumed
);

/// <summary>Looks ahead through hot days.</summary>
public static class HeatWave
{
    // Between day and night where only the hottest is told: this project's estimate.
    private const double UsualRange = 6;

    // Evaporation by formula holds within a third.
    private const double FormulaFactor = 1.33;
    private const double StaleHours = 72;

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
        if (Refusal(wishes) is { } refused)
        {
            yield return Parsed<HeatDay>.No(refused);
            yield break;
        }

        var told = new RoomTold(outlook.House, outlook.Now, outlook.Zone);
        if (RoomOf(told, wishes) is not { } room)
        {
            yield return Parsed<HeatDay>.No("badday-room-unknown");
            yield break;
        }

        var vessels = new List<VesselHeat>();
        foreach (var vessel in Lived(outlook))
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
                [.. First(sorted, outlook)],
                [CautionCode.MainsBesideSaltWater, CautionCode.Glass],
                sorted,
                [.. Assumed(told, room, wishes)]
            )
        );
    }

    /// <summary>Vessels in which something lives that warmth harms, and that hold water.</summary>
    internal static IEnumerable<Vessel> Lived(Outlook outlook) =>
        outlook.House.Vessels.Where(vessel =>
            vessel.Standing is not null && vessel.Role is not (VesselRole.Store or VesselRole.Cup)
        );

    /// <summary>The water that stands in a vessel, litres; none where nobody told it.</summary>
    internal static double? LitresOf(Outlook outlook, Vessel vessel) =>
        outlook.LedgerOf(vessel.Id) is { Litres.Middle: > 0.01 and var litres } ? litres
        : vessel.Capacity is { Litres: > 0.01 and var capacity } ? capacity
        : null;

    /// <summary>The stage whose limits hold; none for a culture.</summary>
    internal static LifeStage? StageOf(Outlook outlook, Vessel vessel) =>
        SafetyTelling.StageOf(
            vessel,
            outlook.Profiles.Of(vessel),
            outlook.PopulationIn(vessel.Id) is { } population ? outlook.EstimateAtHand(population) : null
        );

    /// <summary>The warm limit of what lives in a vessel.</summary>
    internal static LifeLimit? WarmLimit(Outlook outlook, Vessel vessel) =>
        StageOf(outlook, vessel) is { } stage
            ? outlook
                .Profiles.Of(vessel)
                .LimitsFor(stage)
                .FirstOrDefault(limit => limit.Quantity is LimitedQuantity.Temperature && limit.IsUpper)
            : null;

    /// <summary>Warmth of a vessel now, from its last reading run on through the room where that was read; and whether it was read at all.</summary>
    internal static (double Celsius, bool IsRead) NowOf(
        RoomTold told,
        IReadOnlyList<TimedCelsius> read,
        RoomCourse? known,
        RoomCourse supposed,
        CoolingBelief cooling,
        double? heater,
        double? lastKnown = null
    )
    {
        var room = known ?? supposed;
        var (tau, offset) = (cooling.TimeConstantHours.Middle, cooling.OffsetCelsius.Middle);
        var now = told.HoursOf(told.Now);
        if (read.Count == 0 || now - read[^1].Hours > StaleHours)
        {
            // A hot day that is only expected says nothing of the water now.
            return (
                Math.Max(
                    known is null && lastKnown is { } written ? written : room.At(now) + offset,
                    heater ?? double.MinValue
                ),
                false
            );
        }

        var (celsius, hours) = (read[^1].Celsius, read[^1].Hours);
        if (known is null)
        {
            return (celsius, true);
        }

        while (hours < now - 0.01)
        {
            var step = Math.Min(1, now - hours);
            celsius = Math.Max(
                CoolingBelief.After(celsius, room.At(hours), room.At(hours + step), step, tau, offset),
                heater ?? double.MinValue
            );
            hours += step;
        }

        return (celsius, true);
    }

    private static IEnumerable<VesselHeat?> Told(
        Outlook outlook,
        Vessel vessel,
        RoomTold told,
        RoomCourse room,
        HeatWishes wishes
    )
    {
        if (LitresOf(outlook, vessel) is not { } litres)
        {
            yield break;
        }

        var body = VesselBody.OfVolume(Volume.FromLitres(litres));
        var (heater, isHeated, unheated) = told.Heating(vessel.Id);
        var cooling = CoolingBelief.Of(body, unheated, told.Room);
        var read = told.Of(vessel.Id);
        var ledger = outlook.LedgerOf(vessel.Id);
        var written = ledger?.Temperature.Celsius;
        var (now, isRead) = NowOf(told, read, told.Course, room, cooling, heater, written);
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

        var limit = WarmLimit(outlook, vessel);
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
            LostWithFanMillilitres = lost.Scaled(Math.Max(1, more)),
            IceGramsPerKelvin = body.IceGramsPerKelvin(Math.Clamp(now, 0, 60)),
            SixHourly = [.. Enumerable.Range(0, (wishes.Hours / 6) + 1).Select(i => still.At(6 * i))],
            Assumed =
            [
                .. AssumedOf(
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

    private static IEnumerable<Remark> AssumedOf(
        Vessel vessel,
        CoolingBelief cooling,
        bool isRead,
        double? written,
        bool isHeated,
        double? heater,
        Instant now,
        LifeLimit? limit
    )
    {
        if (!isRead)
        {
            yield return written is { } celsius
                ? new Remark("badday-warmth-is-old", new("vessel", vessel.Id), new("celsius", celsius))
                : new Remark("badday-warmth-not-read", new("vessel", vessel.Id), new("when", now));
        }

        yield return cooling.StretchesLearned == 0
            ? new Remark(
                "badday-cooling-by-size",
                new("hours", Math.Round(cooling.TimeConstantHours.Middle, 1)),
                new("lowHours", Math.Round(cooling.TimeConstantHours.Low, 1)),
                new("highHours", Math.Round(cooling.TimeConstantHours.High, 1))
            )
            : new Remark(
                "badday-cooling-learned",
                new("number", (double)cooling.StretchesLearned),
                new("hours", Math.Round(cooling.TimeConstantHours.Middle, 1)),
                new("lowHours", Math.Round(cooling.TimeConstantHours.Low, 1)),
                new("highHours", Math.Round(cooling.TimeConstantHours.High, 1))
            );
        if (isHeated)
        {
            yield return heater is { } setting
                ? new Remark("badday-heater-holds", new Argument("celsius", setting))
                : new Remark("badday-heater-setting-unknown");
        }

        if (limit is null)
        {
            yield return new Remark("badday-no-warm-limit");
        }
    }

    private static IEnumerable<Remark> Assumed(RoomTold told, RoomCourse room, HeatWishes wishes)
    {
        yield return wishes.HottestCelsius is null
            ? new Remark(
                "badday-room-as-before",
                new("number", (double)told.Room.Count),
                new("coolestCelsius", Math.Round(room.MiddleCelsius - room.SwingCelsius, 1)),
                new("hottestCelsius", Math.Round(room.MiddleCelsius + room.SwingCelsius, 1))
            )
            : new Remark(
                "badday-room-as-said",
                new("coolestCelsius", Math.Round(room.MiddleCelsius - room.SwingCelsius, 1)),
                new("hottestCelsius", Math.Round(room.MiddleCelsius + room.SwingCelsius, 1))
            );
        yield return new Remark(
            "badday-air-supposed",
            new("humidityPercent", 100 * wishes.RelativeHumidity),
            new("fan", wishes.FanMetresPerSecond)
        );
        yield return new Remark("badday-shape-supposed");
    }

    private static RoomCourse? RoomOf(RoomTold told, HeatWishes wishes)
    {
        if (wishes.HottestCelsius is not { } hottest)
        {
            return told.Course;
        }

        var coolest =
            wishes.CoolestCelsius
            ?? (
                told.Course is { } known
                    ? Math.Min(hottest, known.MiddleCelsius - known.SwingCelsius)
                    : hottest - UsualRange
            );
        return RoomCourse.Between(coolest, hottest);
    }

    private static Remark? Refusal(HeatWishes wishes) =>
        wishes.HottestCelsius is not (null or (>= 0 and <= 50))
        || wishes.CoolestCelsius is not (null or (>= -10 and <= 50))
        || wishes.CoolestCelsius > (wishes.HottestCelsius ?? 50)
            ? new Remark("badday-room-impossible")
        : wishes.FanMetresPerSecond is not (>= 0 and <= 10) ? new Remark("badday-fan-impossible")
        : wishes.RelativeHumidity is not (>= 0 and <= 1) ? new Remark("badday-humidity-impossible")
        : wishes.Hours is < 6 or > 120 ? new Remark("badday-hours-impossible")
        : null;

    private static IEnumerable<Remark> First(ImmutableArray<VesselHeat> vessels, Outlook outlook)
    {
        if (vessels.FirstOrDefault(one => one.ToLimit?.Chance.Value >= 0.05) is { ToLimit: { } soon } worst)
        {
            yield return new Remark(
                "badday-heat-first",
                new("vessel", worst.Vessel),
                new("celsius", worst.Limit!.Value),
                new("hours", Math.Round(soon.MiddleHours ?? soon.EarlyHours ?? soon.HorizonHours, 1)),
                new("chance", soon.Chance.Value)
            );
            yield return new Remark("badday-heat-shade");
            yield return new Remark("badday-heat-lamp");
            yield return new Remark(
                "badday-heat-fan",
                new("vessel", worst.Vessel),
                new(
                    "coolsBy",
                    Math.Round(
                        Math.Max(0, worst.WarmestCelsius.Middle - worst.WarmestWithFanCelsius.Middle),
                        1
                    )
                )
            );
            yield return new Remark(
                "badday-heat-topup",
                new("vessel", worst.Vessel),
                new("lostMillilitres", Math.Round(worst.LostWithFanMillilitres.Middle))
            );
            yield return new Remark(
                "badday-heat-ice",
                new("vessel", worst.Vessel),
                new("iceGrams", Math.Round(worst.IceGramsPerKelvin)),
                new(
                    "stepBy",
                    outlook.Profiles.Of(outlook.House.Vessel(worst.Vessel)).VesselStepTemperature.Celsius
                )
            );
        }
        else
        {
            yield return new Remark("badday-heat-none");
            yield return new Remark("badday-heat-shade");
        }

        yield return new Remark("badday-heat-air");
        yield return new Remark("badday-heat-food");
    }
}
