using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>
/// What bad days ask for: a round while the mains are gone, a look after they came back, vessels that get too warm within a
/// day, an absence to be made ready, the house to be looked over after it. Rough on purpose: a list waits for no twin.
/// </summary>
internal static class DueFromBadDays
{
    // Practice, no source: rounds, and how long a return is worth a look.
    private static readonly Duration Round = Duration.FromHours(4);
    private static readonly Duration After = Duration.FromDays(1);
    private static readonly Duration ReadyAhead = Duration.FromDays(7);
    private const int HoursAhead = 24;

    public static IEnumerable<PlannedAction> Of(Outlook outlook) =>
        [.. Mains(outlook), .. Absence(outlook), .. Warm(outlook)];

    private static IEnumerable<PlannedAction> Mains(Outlook outlook)
    {
        var (house, now) = (outlook.House, outlook.Now);
        if (PowerCut.FailedSince(house, now) is { } since)
        {
            var round = (int)((now - since) / Round);
            var from = since + (round * Round);
            yield return Make(
                outlook,
                ActionCodes.MindPowerCut,
                Subject.House,
                Stamp(since) + $".{round + 1}",
                new Remark("due-mains-are-gone", new Argument("since", since))
            ) with
            {
                From = from,
                By = from + Duration.FromHours(1),
                Cautions = [CautionCode.MainsBesideSaltWater],
            };
        }
        else if (Last<PowerRestored>(house, now) is { } back && now - back < After)
        {
            yield return Make(
                outlook,
                ActionCodes.AfterPowerCut,
                Subject.House,
                Stamp(back),
                new Remark("due-mains-are-back", new Argument("since", back))
            ) with
            {
                From = back,
                By = back + Duration.FromHours(2),
                Cautions = [CautionCode.MainsBesideSaltWater],
            };
        }
    }

    private static IEnumerable<PlannedAction> Absence(Outlook outlook)
    {
        var (house, now) = (outlook.House, outlook.Now);
        foreach (var told in house.Account.About(Subject.House))
        {
            var when = told.Happened.Middle;
            if (told.Fact is KeeperLeft left && when > now && when - now <= ReadyAhead)
            {
                yield return Make(
                    outlook,
                    ActionCodes.ReadyAbsence,
                    Subject.House,
                    Stamp(when),
                    left.Until is { } until
                        ? new Remark("due-away-until", new("leaves", when), new("until", until))
                        : new Remark("due-away-open", new Argument("leaves", when))
                ) with
                {
                    From = now,
                    By = when - Duration.FromHours(12) > now ? when - Duration.FromHours(12) : when,
                    Cautions = [CautionCode.MainsBesideSaltWater],
                };
            }
        }

        if (Last<KeeperReturned>(house, now) is { } back && now - back < After)
        {
            yield return Make(
                outlook,
                ActionCodes.AfterAbsence,
                Subject.House,
                Stamp(back),
                new Remark("due-back-again", new Argument("since", back))
            ) with
            {
                From = back,
                By = back + Duration.FromHours(3),
                Door = new(DoorCode.MarkDone, Subject.House),
            };
        }
    }

    private static IEnumerable<PlannedAction> Warm(Outlook outlook)
    {
        var told = new RoomTold(outlook.House, outlook.Now, outlook.Zone);
        foreach (var vessel in LivedVessels.Of(outlook))
        {
            if (
                Limit(outlook, vessel) is not { } limit
                || Hours(outlook, vessel, told, limit) is not { } hours
            )
            {
                continue;
            }

            var date = outlook.Now.InZone(outlook.Zone).Date;
            yield return Make(
                outlook,
                ActionCodes.CoolVessel,
                Subject.Of(vessel.Id),
                Occasion.Of(date),
                hours > 0
                    ? new Remark(
                        "due-too-warm-soon",
                        new("limitCelsius", limit.Value),
                        new("hours", Math.Round(hours, 1))
                    )
                    : new Remark("due-too-warm-now", new Argument("limitCelsius", limit.Value))
            ) with
            {
                From = outlook.Now,
                By = outlook.Now + Duration.FromHours(Math.Max(0.5, hours / 2)),
                Cautions = [CautionCode.MainsBesideSaltWater],
            };
        }
    }

    // Hours until the limit: none left where the vessel was read at it, room or no room. Else by the usual time constant of its
    // volume, in a day somewhat hotter than the last ones: a wave climbs. None where it is not reached within a day.
    private static double? Hours(Outlook outlook, Vessel vessel, RoomTold told, LifeLimit limit)
    {
        var read = told.Of(vessel.Id);
        if (read.Count > 0 && told.HoursOf(told.Now) - read[^1].Hours < 6 && read[^1].Celsius >= limit.Value)
        {
            return 0;
        }

        if (
            told.Course is not { } room
            || room.MiddleCelsius + room.SwingCelsius + room.SdCelsius < limit.Value - 1
            || LivedVessels.LitresOf(outlook, vessel) is not { } litres
        )
        {
            return null;
        }

        var cooling = CoolingBelief.Of(VesselBody.OfVolume(Volume.FromLitres(litres)));
        var (celsius, isRead) = WarmthNow.Of(told, read, room, room, cooling, null);
        if (!isRead)
        {
            return null;
        }

        var now = told.HoursOf(told.Now);
        for (var hour = 0; hour < HoursAhead; hour++)
        {
            if (celsius >= limit.Value)
            {
                return hour;
            }

            celsius = CoolingBelief.After(
                celsius,
                room.At(now + hour) + room.SdCelsius,
                room.At(now + hour + 1) + room.SdCelsius,
                1,
                cooling.TimeConstantHours.Middle
            );
        }

        return null;
    }

    private static LifeLimit? Limit(Outlook outlook, Vessel vessel) =>
        SafetyTelling.StageOf(vessel, outlook.Profiles.Of(vessel), null) is { } stage
            ? outlook
                .Profiles.Of(vessel)
                .LimitsFor(stage)
                .FirstOrDefault(limit => limit.Quantity is LimitedQuantity.Temperature && limit.IsUpper)
            : null;

    private static Instant? Last<T>(House house, Instant now)
        where T : Fact
    {
        Instant? last = null;
        foreach (var told in house.Account.About(Subject.House))
        {
            if (told.Fact is T && told.Happened.Middle <= now)
            {
                last = told.Happened.Middle;
            }
        }

        return last;
    }

    private static string Stamp(Instant at) =>
        at.ToUnixTimeSeconds().ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static PlannedAction Make(
        Outlook outlook,
        string code,
        Subject about,
        string occasion,
        Remark reason
    ) =>
        new()
        {
            Key = ActionKey.Of(code, about, occasion),
            Code = code,
            About = about,
            From = outlook.Now,
            By = outlook.Now,
            Reason = reason,
            Door = new(DoorCode.BadDay, about),
        };
}
