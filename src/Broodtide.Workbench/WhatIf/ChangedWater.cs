using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>A vessel whose water is changed, salted, halved or left to the air.</summary>
internal static class ChangedWater
{
    // What is left stands at least this high, whatever the air takes.
    private const double LeastShareLeft = 0.1;

    // What evaporated left its alkalinity behind, and a top-up brings none.
    private static readonly IncomingWater Fresh = new() { AlkalinityMilliequivalentsPerLitre = 0.01 };

    public static VesselScene Renewed(VesselScene scene, WhatIfChange.WaterChanged water, int from, int end)
    {
        var events = scene.Events.Where(done => done.Hour < from || !IsChange(done)).ToList();
        for (var at = from; at < end; at += water.EveryDays > 0 ? 24 * water.EveryDays : end)
        {
            var part = Volume.FromLitres(water.Share * scene.Hours[at].Water.Litres);
            events.Add(new VesselEvent.WaterMoved(at, part, part, IncomingWater.Clean));
        }

        return scene with
        {
            Events = [.. events],
        };
    }

    public static VesselScene Salted(VesselScene scene, WhatIfChange.SalinityTo salt, int from, int end)
    {
        if (from >= end)
        {
            return scene;
        }

        var start = scene.Hours[from].Salinity.Practical;
        var steps = Math.Max(1, salt.OverDays);
        var events = scene.Events.ToList();
        var hours = scene.Hours.ToBuilder();
        for (var hour = from; hour < hours.Count; hour++)
        {
            var step = Math.Min(steps, 1 + ((hour - from) / 24));
            var moved = (salt.To - start) * step / steps;
            hours[hour] = hours[hour] with
            {
                Salinity = Salinity.FromPractical(Math.Max(0, hours[hour].Salinity.Practical + moved)),
            };
            if ((hour - from) % 24 == 0 && (hour - from) / 24 < steps && hour < end && salt.To < start)
            {
                var before = start + ((salt.To - start) * (step - 1) / steps);
                var after = start + moved;
                var part = Volume.FromLitres(scene.Hours[hour].Water.Litres * (1 - (after / before)));
                events.Add(new VesselEvent.WaterMoved(hour, part, part, IncomingWater.Clean));
            }
        }

        return scene with
        {
            Hours = hours.ToImmutable(),
            Events = [.. events],
        };
    }

    // The old vessel with half of its water: its shape stays, so it stands half as high over the same floor.
    public static VesselScene Halved(VesselScene scene, int from, int end)
    {
        if (from >= end)
        {
            return scene;
        }

        const double squareCentimetresPerLitre = 10;
        var depth = scene.Site.DepthMetres;
        var half = Volume.FromLitres(scene.Hours[from].Water.Litres / 2);
        return SceneHours.After(
            scene with
            {
                Site = scene.Site with
                {
                    DepthMetres = Math.Max(0.005, depth / 2),
                    WallSquareCentimetresPerLitre = Math.Min(
                        10_000,
                        scene.Site.WallSquareCentimetresPerLitre + (squareCentimetresPerLitre / depth)
                    ),
                },
                Events =
                [
                    new VesselEvent.WaterMoved(from, half, default, IncomingWater.Clean),
                    .. scene.Events.Select(done => done.Hour < from ? done : HalfOf(done)),
                ],
            },
            from,
            hour =>
                hour with
                {
                    Water = Volume.FromLitres(hour.Water.Litres / 2),
                    Larvae = hour.Larvae.Scaled(0.5),
                }
        );
    }

    public static VesselScene Left(VesselScene scene, int from, int by, double litresPerDay)
    {
        var hours = scene.Hours.ToBuilder();
        for (var hour = from; hour < Math.Min(by, hours.Count); hour++)
        {
            var full = hours[hour].Water.Litres;
            var left = Math.Max(full * LeastShareLeft, full - (litresPerDay * (hour - from + 1) / 24));
            hours[hour] = hours[hour] with
            {
                Water = Volume.FromLitres(left),
                Salinity = Salinity.FromPractical(hours[hour].Salinity.Practical * full / left),
            };
        }

        var events = scene.Events.Where(done => done.Hour < from || done.Hour >= by);
        if (
            by < hours.Count
            && scene.Hours[by - 1].Water.Litres - hours[by - 1].Water.Litres is > 0 and var gone
        )
        {
            // Whoever comes back tops up before all else.
            events = events.Prepend(new VesselEvent.WaterMoved(by, default, Volume.FromLitres(gone), Fresh));
        }

        return scene with
        {
            Hours = hours.ToImmutable(),
            Events = [.. events],
        };
    }

    private static VesselEvent HalfOf(VesselEvent done) =>
        done is VesselEvent.WaterMoved moved
            ? moved with
            {
                Taken = Volume.FromLitres(moved.Taken.Litres / 2),
                Added = Volume.FromLitres(moved.Added.Litres / 2),
            }
            : ChangedMeals.Times(done, 0.5)!;

    private static bool IsChange(VesselEvent done) =>
        done
            is VesselEvent.WaterMoved
            {
                Taken.Litres: > 0,
                Added.Litres: > 0,
                Incoming.CellsPerMillilitre: 0
            };
}
