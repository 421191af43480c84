using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.BadDays;

/// <summary>What is said of hot days: what to do first, and what was supposed.</summary>
internal static class HeatSayings
{
    public static IEnumerable<Remark> First(ImmutableArray<VesselHeat> vessels, Outlook outlook)
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

    public static IEnumerable<Remark> AssumedOf(
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

    public static IEnumerable<Remark> Assumed(RoomTold told, RoomCourse room, HeatWishes wishes)
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
}
