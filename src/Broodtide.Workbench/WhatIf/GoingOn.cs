using System.Collections.Immutable;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>
/// A vessel going on as in the last days: what a keeper is in the habit of, learned from what was done. Pure: hours and
/// events in, hours and events out.
/// </summary>
public static class GoingOn
{
    // Habits are read from so many days; food from fewer, for it follows the larvae.
    private const int HabitDays = 14;
    private const int FoodDays = 7;
    private const int WarmthDays = 10;
    private const int HoursADay = 24;

    // Once may be chance, twice is a habit.
    private const int LeastTimes = 2;

    // Which of the last hours food usually came in: noon where none tells.
    private const int Noon = 12;

    /// <summary>The scene with days added in which the keeper goes on, and what was supposed for it.</summary>
    /// <param name="told">What was around the vessel and done to it; hours after now are put aside.</param>
    /// <param name="nowHour">Hour of its clock that is now, 1 or more, told up to there.</param>
    /// <param name="days">Days to add.</param>
    /// <param name="larvae">Larvae alive in the vessel at each day from now, the first for now; as told last where none is given.</param>
    /// <exception cref="ArgumentOutOfRangeException">The scene does not reach to now, or no day is asked.</exception>
    public static (VesselScene Scene, IReadOnlyList<Remark> Assumed) Of(
        VesselScene told,
        int nowHour,
        int days,
        IReadOnlyList<Interval>? larvae = null
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(nowHour, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(nowHour, told.Hours.Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        var past = told.Hours.AsSpan(0, nowHour);
        var last = past[^1];
        var warm = past[Math.Max(0, nowHour - (WarmthDays * HoursADay))..];
        var celsius = 0.0;
        foreach (var hour in warm)
        {
            celsius += hour.Temperature.Celsius / warm.Length;
        }

        var hours = ImmutableArray.CreateBuilder<VesselHour>(nowHour + (days * HoursADay));
        hours.AddRange(past);
        for (var ahead = 0; ahead < days * HoursADay; ahead++)
        {
            // The lamp's day is the last one; a shorter past repeats what it has.
            var like = nowHour >= HoursADay ? nowHour - HoursADay + (ahead % HoursADay) : nowHour - 1;
            hours.Add(
                last with
                {
                    Temperature = Temperature.FromCelsius(celsius),
                    LightMicromoles = past[like].LightMicromoles,
                    Larvae = larvae is { Count: > 0 } known
                        ? known[Math.Min(known.Count - 1, ahead / HoursADay)]
                        : last.Larvae,
                }
            );
        }

        var done = told.Events.Where(one => one.Hour < nowHour).ToList();
        var habits = new List<Remark>
        {
            new(
                "whatif-as-it-is",
                new("keptLitres", last.Water.Litres),
                new("salinityPpt", last.Salinity.Practical),
                new("celsius", celsius),
                new("hoursLit", LitHours(past))
            ),
        };
        var coming = new List<VesselEvent>();
        Feed(told, done, nowHour, days, coming, habits);
        Change(done, last.Water.Litres, nowHour, days, coming, habits);
        Siphon(done, nowHour, days, coming);
        return (
            told with
            {
                Hours = hours.ToImmutable(),
                Events = [.. done, .. coming.OrderBy(one => one.Hour)],
            },
            habits
        );
    }

    private static void Feed(
        VesselScene told,
        List<VesselEvent> done,
        int nowHour,
        int days,
        List<VesselEvent> ahead,
        List<Remark> habits
    )
    {
        var since = Math.Max(0, nowHour - (FoodDays * HoursADay));
        var meals = done.Where(one => one.Hour >= since && FutureCourse.IsMeal(one)).ToList();
        var span = Math.Max(1, (nowHour - since) / (double)HoursADay);
        var milligrams = meals.OfType<VesselEvent.Fed>().Sum(fed => fed.DryMass.Milligrams);
        var cells = meals.Sum(one => CellsOf(one));
        habits.Add(
            meals.Count == 0
                ? new Remark("whatif-fed-nothing")
                : new Remark(
                    "whatif-fed-as-before",
                    new("milligramsPerDay", milligrams / span),
                    new("dailyPerMillilitre", cells / span / (1000 * told.Hours[nowHour - 1].Water.Litres))
                )
        );
        var first = meals.Count > 0 ? ((meals.Max(one => one.Hour) - nowHour) % HoursADay) + HoursADay : Noon;
        for (var day = 0; day < days; day++)
        {
            var at = nowHour + (day * HoursADay) + (first % HoursADay);
            if (milligrams > 0)
            {
                ahead.Add(
                    new VesselEvent.Fed(at, Mass.FromMilligrams(milligrams / span), Mixed(meals, milligrams))
                );
            }

            if (cells > 0)
            {
                ahead.Add(new VesselEvent.AlgaeGiven(at, cells / span));
            }
        }
    }

    private static FeedComposition Mixed(List<VesselEvent> meals, double milligrams)
    {
        var fed = meals.OfType<VesselEvent.Fed>().ToList();
        return new(
            fed.Sum(one => one.DryMass.Milligrams * one.Composition.NitrogenShare) / milligrams,
            fed.Sum(one => one.DryMass.Milligrams * one.Composition.OxygenGramsPerGram) / milligrams
        );
    }

    // Water drawn off on two days or more is a habit; it was made up for, or the vessel would be empty.
    private static void Change(
        List<VesselEvent> done,
        double litres,
        int nowHour,
        int days,
        List<VesselEvent> ahead,
        List<Remark> habits
    )
    {
        var since = Math.Max(0, nowHour - (HabitDays * HoursADay));
        var drawn = done.OfType<VesselEvent.WaterMoved>()
            .Where(moved => moved.Hour >= since && moved.Taken.Litres > 0)
            .ToList();
        if (Every(drawn.Select(moved => moved.Hour), since, nowHour) is not { } every)
        {
            return;
        }

        var part = Volume.FromLitres(
            Math.Min(WhatIfRules.MostOfWater * litres, drawn.Average(moved => moved.Taken.Litres))
        );
        habits.Add(
            new Remark("whatif-changed-as-before", new("changedLitres", part.Litres), new("everyDays", every))
        );
        for (var day = every; day < days; day += every)
        {
            ahead.Add(
                new VesselEvent.WaterMoved(nowHour + (day * HoursADay), part, part, IncomingWater.Clean)
            );
        }
    }

    private static void Siphon(List<VesselEvent> done, int nowHour, int days, List<VesselEvent> ahead)
    {
        var since = Math.Max(0, nowHour - (HabitDays * HoursADay));
        var siphoned = done.OfType<VesselEvent.Siphoned>().Where(one => one.Hour >= since).ToList();
        if (Every(siphoned.Select(one => one.Hour), since, nowHour) is not { } every)
        {
            return;
        }

        for (var day = every; day < days; day += every)
        {
            ahead.Add(siphoned[^1] with { Hour = nowHour + (day * HoursADay) });
        }
    }

    private static int? Every(IEnumerable<int> hours, int since, int nowHour)
    {
        var times = hours.Select(hour => hour / HoursADay).Distinct().Count();
        return times < LeastTimes
            ? null
            : Math.Max(1, (int)Math.Round((nowHour - since) / (double)HoursADay / times));
    }

    private static double CellsOf(VesselEvent done) =>
        done switch
        {
            VesselEvent.AlgaeGiven given => given.Cells,
            VesselEvent.WaterMoved moved => moved.Added.Litres * 1000 * moved.Incoming.CellsPerMillilitre,
            _ => 0,
        };

    // Hours brighter than half of the brightest.
    private static double LitHours(ReadOnlySpan<VesselHour> past)
    {
        var day = past[Math.Max(0, past.Length - HoursADay)..];
        var brightest = 0.0;
        foreach (var hour in day)
        {
            brightest = Math.Max(brightest, hour.LightMicromoles);
        }

        var lit = 0;
        foreach (var hour in day)
        {
            lit += brightest > 0 && hour.LightMicromoles > brightest / 2 ? 1 : 0;
        }

        return lit;
    }
}
