using System.Diagnostics;
using System.Globalization;
using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Speed;

/// <summary>
/// PSS-78 and EOS-80 over many rows on one core: the vectors of Science against a plain C loop of the same formulas, and
/// against the formula for one number called row by row. What share of the memory's pace and of the multiply-adds the
/// processor can do is taken by it, both measured in the same run.
/// </summary>
internal static class WaterDuel
{
    // Additions and multiplications of one row with pressure, as the kernels do them; a division or a root counts as one.
    private const int SalinityWork = 58;
    private const int DensityWork = 89;
    private const long Turns = 2_000_000;

    public static void Run(string folder, int rows, int rounds)
    {
        Told.Title($"WATER: {rows} rows, one core, doubles");
        var fast = new NativeWater(Path.Combine(folder, "libwater.so"));
        var strict = new NativeWater(Path.Combine(folder, "libwater-errno.so"));
        var random = new Random(5);
        var r = Column(rows, () => 0.1 + (1.2 * random.NextDouble()));
        var fresh = Column(
            rows,
            () => random.Next(4) == 0 ? 0.05 * random.NextDouble() : r[random.Next(rows)]
        );
        var t = Column(rows, () => 5 + (25 * random.NextDouble()));
        var p = Column(rows, () => 100 * random.NextDouble());
        var s = new double[rows];
        var rho = new double[rows];
        var peer = new double[rows];

        Check(
            "PSS-78",
            () => PracticalSalinityRows.FromConductivityRatios(r, t, p, s),
            () => fast.Three("pss78", r, t, p, peer),
            s,
            peer,
            1e-11
        );
        var salinity = Duel.Run(
            "PSS-78 under pressure, S above 2",
            rounds,
            new("ours, vectors", () => PracticalSalinityRows.FromConductivityRatios(r, t, p, s)),
            new("C, -O3 -march=native -fno-math-errno", () => fast.Three("pss78", r, t, p, peer)),
            new("C, -O3 -march=native (a note)", () => strict.Three("pss78", r, t, p, peer))
        );
        Duel.Run(
            "PSS-78 at the surface, S above 2",
            rounds,
            new("ours, vectors", () => PracticalSalinityRows.FromConductivityRatios(r, t, [], s)),
            new("C, -O3 -march=native -fno-math-errno", () => fast.Two("pss78_surface", r, t, peer))
        );
        Duel.Run(
            "PSS-78 at the surface, our one-number formula row by row",
            Math.Max(3, rounds / 5),
            new("ours, vectors", () => PracticalSalinityRows.FromConductivityRatios(r, t, [], s)),
            new("ours, row by row", () => RowByRow(r, t, peer))
        );
        Check(
            "PSS-78 with the low branch",
            () => PracticalSalinityRows.FromConductivityRatios(fresh, t, p, s),
            () => fast.Three("pss78_low", fresh, t, p, peer),
            s,
            peer,
            1e-11
        );
        Duel.Run(
            "PSS-78 under pressure, one row of four below S = 2",
            rounds,
            new("ours, vectors", () => PracticalSalinityRows.FromConductivityRatios(fresh, t, p, s)),
            new("C with the low branch, -fno-math-errno", () => fast.Three("pss78_low", fresh, t, p, peer))
        );

        PracticalSalinityRows.FromConductivityRatios(r, t, p, s);
        Check(
            "EOS-80",
            () => SeawaterDensityRows.ByEos80(s, t, p, rho),
            () => fast.Three("eos80", s, t, p, peer),
            rho,
            peer,
            1e-9
        );
        var density = Duel.Run(
            "EOS-80 under pressure",
            rounds,
            new("ours, vectors", () => SeawaterDensityRows.ByEos80(s, t, p, rho)),
            new("C, -O3 -march=native -fno-math-errno", () => fast.Three("eos80", s, t, p, peer)),
            new("C, -O3 -march=native (a note)", () => strict.Three("eos80", s, t, p, peer))
        );
        Duel.Run(
            "EOS-80 at the surface",
            rounds,
            new("ours, vectors", () => SeawaterDensityRows.ByEos80(s, t, [], rho)),
            new("C, -O3 -march=native -fno-math-errno", () => fast.Two("eos80_surface", s, t, peer))
        );

        // Three columns read and one written, as the kernels do; what is written is fetched first unless the processor
        // goes around its caches, which is not counted.
        var machine = Duel.Run(
            "the machine: memory and multiply-adds",
            rounds,
            new("copy, two columns", () => fast.One("copy", r, peer)),
            new("triad, three columns", () => fast.Two("triad", r, t, peer)),
            new($"multiply-adds, {Turns} turns of 128", () => fast.MultiplyAdds(Turns))
        );
        var perRow = sizeof(double) / 1e6 * rows;
        var pace = 3 * perRow / machine[1];
        var peak = Turns * 256 / 1e6 / machine[2];
        Told.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  copy {2 * perRow / machine[0]:F1} GB/s, triad {pace:F1} GB/s; multiply-adds {peak:F1} thousand million operations a second"
            )
        );
        foreach (
            var (name, ms, work) in new[]
            {
                ("PSS-78", salinity[0], SalinityWork),
                ("EOS-80", density[0], DensityWork),
            }
        )
        {
            var (bytes, operations) = (4 * perRow / ms, work / 1e6 * rows / ms);
            Told.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  {name}: {rows / 1e3 / ms:F0} million rows a second; {bytes:F1} GB/s, {bytes / pace:P0} of the triad; {operations:F1} thousand million operations a second ({work} a row), {operations / peak:P0} of the multiply-adds"
                )
            );
        }
    }

    private static double[] Column(int rows, Func<double> next)
    {
        var column = new double[rows];
        for (var i = 0; i < rows; i++)
        {
            column[i] = next();
        }

        return column;
    }

    private static void RowByRow(double[] ratios, double[] celsius, double[] salinities)
    {
        for (var i = 0; i < ratios.Length; i++)
        {
            salinities[i] = PracticalSalinity
                .FromConductivityRatio(ratios[i], Temperature.FromCelsius(celsius[i]))
                .Value.Practical;
        }
    }

    // A race between two that do not do the same work says nothing.
    private static void Check(
        string what,
        Action ours,
        Action theirs,
        double[] mine,
        double[] peer,
        double tolerance
    )
    {
        ours();
        theirs();
        var worst = 0.0;
        for (var i = 0; i < mine.Length; i++)
        {
            var apart = Math.Abs(mine[i] - peer[i]);
            if (!(apart <= tolerance))
            {
                throw new UnreachableException($"{what}: row {i} is {mine[i]:R} here and {peer[i]:R} there.");
            }

            worst = Math.Max(worst, apart);
        }

        Told.Line($"{what}: both give the same, {worst:E1} apart at most");
    }
}
