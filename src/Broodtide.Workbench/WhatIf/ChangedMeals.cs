using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>A vessel fed otherwise.</summary>
internal static class ChangedMeals
{
    public static VesselScene Daily(VesselScene scene, int from, int end, Func<int, VesselEvent> give)
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

    public static VesselScene Fed(VesselScene scene, int from, int to, double factor) =>
        scene with
        {
            Events =
            [
                .. scene
                    .Events.Select(done =>
                        done.Hour >= from && done.Hour < to ? ChangedMeals.Times(done, factor) : done
                    )
                    .OfType<VesselEvent>(),
            ],
        };

    public static VesselEvent? Times(VesselEvent done, double factor) =>
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
}
