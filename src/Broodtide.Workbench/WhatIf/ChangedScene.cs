using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>
/// A vessel as it would go on under changes. What is done by hand begins when somebody is there again; lamp, air and
/// heater are set before.
/// </summary>
public static class ChangedScene
{
    // What is left stands at least this high, whatever the air takes.
    private const double LeastShareLeft = 0.1;

    // What evaporated left its alkalinity behind, and a top-up brings none.
    private static readonly IncomingWater Fresh = new() { AlkalinityMilliequivalentsPerLitre = 0.01 };

    /// <summary>The scene of the ground under changes that <see cref="WhatIfRules"/> lets pass.</summary>
    /// <param name="ground">As it is.</param>
    /// <param name="changes">What is changed; their order is without influence.</param>
    public static VesselScene Of(WhatIfGround ground, IReadOnlyList<WhatIfChange> changes)
    {
        var scene = ground.AsItIs;
        var from = ground.FromHour;
        var skipped = changes.OfType<WhatIfChange.Skipped>().Select(skip => 24 * skip.Days).FirstOrDefault();
        var by = Math.Min(from + skipped, ground.EndHour);
        foreach (var change in changes.OrderBy(Turn))
        {
            scene = change switch
            {
                WhatIfChange.LightFor light => Lit(scene, light, from),
                WhatIfChange.AirSet air => After(scene, from, hour => hour with { Air = air.Air }),
                WhatIfChange.TemperatureTo warm => Warmed(scene, warm, ground),
                WhatIfChange.LarvaeTimes times => Populated(scene, by, times.Factor),
                WhatIfChange.LarvaeNumber number => Populated(scene, by, LarvaFactor(ground, [number])),
                WhatIfChange.FoodEachDay food => Daily(
                    scene,
                    by,
                    ground.EndHour,
                    at => new VesselEvent.Fed(at, Mass.FromMilligrams(food.DryMilligrams), food.Composition)
                ),
                WhatIfChange.AlgaeEachDay algae => Daily(
                    scene,
                    by,
                    ground.EndHour,
                    at => new VesselEvent.AlgaeGiven(
                        at,
                        algae.CellsPerMillilitre * 1000 * scene.Hours[at].Water.Litres
                    )
                ),
                WhatIfChange.FeedTimes feed => Fed(
                    scene,
                    by,
                    feed.ForDays is { } days ? by + (24 * days) : int.MaxValue,
                    feed.Factor
                ),
                WhatIfChange.WaterChanged water => Renewed(scene, water, by, ground.EndHour),
                WhatIfChange.SalinityTo salt => Salted(scene, salt, by, ground.EndHour),
                WhatIfChange.Siphoned siphon => By(
                    scene,
                    by,
                    ground.EndHour,
                    new VesselEvent.Siphoned(by, Probability.FromFraction(siphon.Share))
                ),
                WhatIfChange.Split => Halved(scene, by, ground.EndHour),
                WhatIfChange.Skipped => Left(scene, from, by, ground.EvaporationLitresPerDay),
                _ => throw new ArgumentException($"{change.GetType().Name} is not known.", nameof(changes)),
            };
        }

        return scene;
    }

    /// <summary>How many times as many larvae there are under changes: in the vessel, or in both after it was split.</summary>
    internal static double LarvaFactor(WhatIfGround ground, IReadOnlyList<WhatIfChange> changes) =>
        changes
            .Select(change =>
                change switch
                {
                    WhatIfChange.LarvaeTimes times => times.Factor,
                    WhatIfChange.LarvaeNumber { Number: var number }
                        when ground.HourNow.Larvae.Middle is > 0 and var now => number / now,
                    _ => 1.0,
                }
            )
            .Aggregate(1.0, (all, factor) => all * factor);

    // Food in place of food before what multiplies it; water before salt; what halves all before what skips.
    private static int Turn(WhatIfChange change) =>
        change switch
        {
            WhatIfChange.FoodEachDay or WhatIfChange.AlgaeEachDay => 0,
            WhatIfChange.FeedTimes => 1,
            WhatIfChange.WaterChanged => 2,
            WhatIfChange.SalinityTo => 3,
            WhatIfChange.Split => 4,
            WhatIfChange.Skipped => 5,
            _ => 0,
        };

    private static VesselScene Lit(VesselScene scene, WhatIfChange.LightFor light, int from)
    {
        var lit = scene.Hours.Skip(from).Take(24).Select(hour => hour.LightMicromoles).ToArray();
        var brightest = light.Micromoles ?? lit.DefaultIfEmpty(0).Max();
        var dim = lit.DefaultIfEmpty(0).Min();
        var middle = MiddleOfLight(lit);
        var place = 0;
        return After(
            scene,
            from,
            hour =>
            {
                var away = Math.Abs(((place++ + 0.5 - middle + 36) % 24) - 12);
                var burns = away < light.HoursPerDay / 2 || light.HoursPerDay >= 24;
                // Daylight of the room comes in as before where the lamp is off; "no light" is the dark.
                return hour with
                {
                    LightMicromoles =
                        burns ? brightest
                        : light.HoursPerDay == 0 ? 0
                        : Math.Min(dim, hour.LightMicromoles),
                };
            }
        );
    }

    // Middle of the lit hours, counted from now, as the direction of their sum round the clock.
    private static double MiddleOfLight(double[] lit)
    {
        double x = 0;
        double y = 0;
        for (var i = 0; i < lit.Length; i++)
        {
            var angle = 2 * Math.PI * (i + 0.5) / 24;
            x += lit[i] * Math.Cos(angle);
            y += lit[i] * Math.Sin(angle);
        }

        return Math.Abs(x) + Math.Abs(y) < 1e-9 ? 6 : (Math.Atan2(y, x) / (2 * Math.PI) * 24 + 24) % 24;
    }

    private static VesselScene Warmed(VesselScene scene, WhatIfChange.TemperatureTo warm, WhatIfGround ground)
    {
        var all = warm.To - ground.HourNow.Temperature.Celsius;
        var over = 24 * warm.OverDays;
        var place = 0;
        return After(
            scene,
            ground.FromHour,
            hour =>
            {
                var share = over == 0 ? 1 : Math.Min(1, (double)++place / over);
                return hour with
                {
                    Temperature = Temperature.FromCelsius(hour.Temperature.Celsius + (all * share)),
                };
            }
        );
    }

    private static VesselScene Populated(VesselScene scene, int from, double factor) =>
        After(
            scene,
            from,
            hour => hour with { Larvae = factor > 0 ? hour.Larvae.Scaled(factor) : Interval.Exactly(0) }
        );

    private static VesselScene Daily(VesselScene scene, int from, int end, Func<int, VesselEvent> give)
    {
        var events = scene.Events.Where(done => done.Hour < from || !FutureCourse.IsMeal(done)).ToList();
        for (var at = from; at < end; at += 24)
        {
            events.Add(give(at));
        }

        return scene with
        {
            Events = [.. events],
        };
    }

    private static VesselScene Fed(VesselScene scene, int from, int to, double factor) =>
        scene with
        {
            Events =
            [
                .. scene
                    .Events.Select(done => done.Hour >= from && done.Hour < to ? Times(done, factor) : done)
                    .OfType<VesselEvent>(),
            ],
        };

    private static VesselEvent? Times(VesselEvent done, double factor) =>
        done switch
        {
            VesselEvent.Fed or VesselEvent.AlgaeGiven when factor == 0 => null,
            VesselEvent.Fed fed => fed with { DryMass = Mass.FromGrams(fed.DryMass.Grams * factor) },
            VesselEvent.AlgaeGiven given => given with { Cells = given.Cells * factor },
            VesselEvent.WaterMoved moved when FutureCourse.IsMeal(moved) => moved with
            {
                Incoming = moved.Incoming with
                {
                    CellsPerMillilitre = moved.Incoming.CellsPerMillilitre * factor,
                },
            },
            _ => done,
        };

    private static VesselScene Renewed(VesselScene scene, WhatIfChange.WaterChanged water, int from, int end)
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

    private static VesselScene Salted(VesselScene scene, WhatIfChange.SalinityTo salt, int from, int end)
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
    private static VesselScene Halved(VesselScene scene, int from, int end)
    {
        if (from >= end)
        {
            return scene;
        }

        const double squareCentimetresPerLitre = 10;
        var depth = scene.Site.DepthMetres;
        var half = Volume.FromLitres(scene.Hours[from].Water.Litres / 2);
        return After(
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

    private static VesselEvent HalfOf(VesselEvent done) =>
        done is VesselEvent.WaterMoved moved
            ? moved with
            {
                Taken = Volume.FromLitres(moved.Taken.Litres / 2),
                Added = Volume.FromLitres(moved.Added.Litres / 2),
            }
            : Times(done, 0.5)!;

    private static VesselScene Left(VesselScene scene, int from, int by, double litresPerDay)
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

    private static VesselScene By(VesselScene scene, int from, int end, VesselEvent done) =>
        from >= end ? scene : scene with { Events = [.. scene.Events, done] };

    private static VesselScene After(VesselScene scene, int from, Func<VesselHour, VesselHour> change)
    {
        var hours = scene.Hours.ToBuilder();
        for (var hour = from; hour < hours.Count; hour++)
        {
            hours[hour] = change(hours[hour]);
        }

        return scene with
        {
            Hours = hours.ToImmutable(),
        };
    }

    private static bool IsChange(VesselEvent done) =>
        done
            is VesselEvent.WaterMoved
            {
                Taken.Litres: > 0,
                Added.Litres: > 0,
                Incoming.CellsPerMillilitre: 0
            };
}
