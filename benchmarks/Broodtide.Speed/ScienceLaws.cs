using Broodtide.Benchmarks;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Water;
using Broodtide.Workbench.Demo;

namespace Broodtide.Speed;

/// <summary>The laws of what is computed: water, larvae, a vessel's twin. On one core.</summary>
internal static class ScienceLaws
{
    public static void Run()
    {
        int[] rows = [10_000, 100_000, 1_000_000];
        CostLaw.Of("PSS-78 salinity of N rows", rows, Salinities);
        CostLaw.Of("EOS-80 density of N rows", rows, Densities);

        // The six crossings stay, and every kind of look is there once at least: hence the odd sizes.
        CostLaw.Of(
            "larvae alive, 6 cohorts, 45 days, N entries",
            [.. EntryParts.Select(part => LarvaeAlive.Invent(part).Events.Count)],
            size =>
            {
                var run = EntryParts
                    .Select(part => LarvaeAlive.Invent(part))
                    .First(run => run.Events.Count == size);
                return () => LarvalEstimator.Of(run, LarvaeAlive.Today);
            }
        );

        // 62 are the most that a run may have.
        CostLaw.Of(
            "larvae alive, N cohorts in one vessel, 45 days",
            [1, 6, 60],
            cohorts =>
            {
                var run = LarvaeAlive.Invent(1, cohorts);
                return () => LarvalEstimator.Of(run, LarvaeAlive.Today);
            }
        );
        CostLaw.Of("a vessel's twin of 200 members, N days", [6, 60, 600], days => Twin(days, 200));
        CostLaw.Of("a vessel's twin of 60 days, N members", [20, 200, 2000], members => Twin(60, members));
    }

    private static double[] EntryParts { get; } = [1, 10, 100];

    private static Action Salinities(int rows)
    {
        var (r, t, s) = (new double[rows], new double[rows], new double[rows]);
        Array.Fill(r, 0.9);
        Array.Fill(t, 24);
        return () => PracticalSalinityRows.FromConductivityRatios(r, t, [], s);
    }

    private static Action Densities(int rows)
    {
        var (s, t, rho) = (new double[rows], new double[rows], new double[rows]);
        Array.Fill(s, 31);
        Array.Fill(t, 24);
        return () => SeawaterDensityRows.ByEos80(s, t, [], rho);
    }

    private static Action Twin(int days, int members)
    {
        var scene = SixtyDays.Scene(days);
        var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, members);
        return () => VesselTwin.Forward(start, scene, 24 * days);
    }
}
