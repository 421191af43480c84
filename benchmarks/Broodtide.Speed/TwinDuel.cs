using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.Demo;

namespace Broodtide.Speed;

/// <summary>The twin of a vessel: 60 days of 200 members, every hour kept, on one thread.</summary>
internal static class TwinDuel
{
    public static void Run(int rounds)
    {
        Told.Title($"TWIN: {SixtyDays.Days} days of {SixtyDays.Members} members");
        var scene = SixtyDays.Scene();
        var start = SixtyDays.Start(scene);
        Duel.Run(
            "all hours",
            rounds,
            new Runner("ours", () => VesselTwin.Forward(start, scene, 24 * SixtyDays.Days))
        );
    }
}
