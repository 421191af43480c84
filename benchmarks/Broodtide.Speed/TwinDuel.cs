using Broodtide.Cli.Door;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.Demo;

namespace Broodtide.Speed;

/// <summary>The twin of a vessel: 60 days of 200 members, every hour kept, on one thread and on several.</summary>
internal static class TwinDuel
{
    public static void Run(int rounds)
    {
        Told.Title($"TWIN: {SixtyDays.Days} days of {SixtyDays.Members} members");
        var scene = SixtyDays.Scene();
        var two = new MachineHands(2);
        var start = SixtyDays.Start(scene);
        Duel.Run(
            "all hours",
            rounds,
            new Runner("ours, on one core", () => VesselTwin.Forward(start, scene, 24 * SixtyDays.Days)),
            new Runner(
                "ours, on two",
                () => VesselTwin.Forward(start, scene, 24 * SixtyDays.Days, hands: two)
            )
        );
    }
}
