using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Workbench.WhatIf;

/// <summary>Hours and events of a scene from one hour on.</summary>
internal static class SceneHours
{
    public static VesselScene After(VesselScene scene, int from, Func<VesselHour, VesselHour> change)
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

    public static VesselScene By(VesselScene scene, int from, int end, VesselEvent done) =>
        from >= end ? scene : scene with { Events = [.. scene.Events, done] };
}
