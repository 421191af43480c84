using Broodtide.Science.Estimation.Larvae;
using CsCheck;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>
/// Each step of the filter in lanes beside the same step of the plain filter, from one and the same state: the difference
/// is that of sums in another order.
/// </summary>
public sealed class LaneFilterTests
{
    private const int Cells = 4;
    private const ulong All = (1UL << Cells) - 1;
    private const double Tolerance = 1e-12;

    // Terms of some thousands cancel in a logarithm of a probability.
    private const double LogTolerance = 1e-9;

    [Fact]
    public void Every_step_does_in_each_lane_what_it_does_alone() =>
        Gen.Int[0, 1 << 20].Sample(seed => Walk(new Random(seed)), iter: 300, threads: 1);

    // A cell in which nobody lives goes on otherwise than one in which next to nobody does.
    [Fact]
    public void Where_all_are_taken_out_nothing_is_left() =>
        Gen.Double[0.01, 900]
            .Array[Cells]
            .Sample(numbers =>
            {
                var filter = new LaneFilter(Cells);
                for (var cell = 0; cell < Cells; cell++)
                {
                    filter.Add(cell, numbers[cell], Of(lane => 1 + lane));
                    filter.Mean[cell] *= Of(lane => 1 / (3.0 + lane));
                }

                filter.RemoveFrom(All, 10_000);
                Assert.All(filter.Mean.Take(Cells), left => Assert.Equal(Lane.Zero, left));
            });

    private static void Walk(Random random)
    {
        var alone = new NumberFilter[Lane.Count];
        for (var lane = 0; lane < alone.Length; lane++)
        {
            alone[lane] = new(Cells);
            alone[lane].Clear(0.04);
        }

        var filter = new LaneFilter(Cells);
        filter.Clear(new(0.04));
        for (var step = 0; step < 20; step++)
        {
            var kind = step < 3 ? step : random.Next(10);
            var counted = Step(random, kind, alone, filter);
            for (var lane = 0; lane < alone.Length; lane++)
            {
                Same(alone[lane], filter, lane, (10 * Tolerance) + counted[lane]);
            }

            Take(alone, filter);
        }
    }

    // How far each lane may be moved otherwise: by what a count moves a total, for how far it is believed follows from a
    // logarithm of a probability.
    private static double[] Step(Random random, int kind, NumberFilter[] alone, LaneFilter filter)
    {
        var (from, to) = (random.Next(Cells), random.Next(Cells));
        var (number, seen) = (200 * random.NextDouble(), random.Next(200));
        var cells = (ulong)random.Next(1, (int)All + 1);
        var each = Of(_ => 0.5 + random.NextDouble());
        // What of each cell, and of all that ever came, is in the total that a count is of.
        int[] living = [.. Enumerable.Range(0, Cells).Select(cell => (int)(cells >> cell) & 1)];
        int[] dying = [.. Enumerable.Repeat(-1, Cells), 1];
        var moved = new double[Lane.Count];
        switch (kind)
        {
            case 0 or 1:
                filter.AddShared(to, number, new Lane(100) * each);
                Alone((one, lane) => one.AddShared(to, number, 100 * each[lane]));
                break;
            case 2:
                filter.Add(to, number, new Lane(100) * each);
                Alone((one, lane) => one.Add(to, number, 100 * each[lane]));
                break;
            case 3:
                Thin();
                break;
            case 4 when from != to:
                filter.Move(from, to, 0.3);
                Alone((one, _) => one.Move(from, to, 0.3));
                break;
            case 5:
                filter.MoveNumber(from, to, number / 10);
                Alone((one, _) => one.MoveNumber(from, to, number / 10));
                break;
            case 6:
                filter.RemoveFrom(cells, number / 10);
                Alone((one, _) => one.RemoveFrom(cells, number / 10));
                break;
            case 7:
                var least = CountTerm.Of(new AtLeastEvidence(seen / 4));
                var deaths = filter.ObserveDeaths(Lane.One, least, 0.01, out var dead);
                Told(
                    dying,
                    (one, _) => (one.ObserveDeaths(1, least, 0.01, out var tale), tale),
                    deaths,
                    dead
                );
                break;
            case 8:
                var raise = CountTerm.Of(new AtLeastEvidence(seen));
                var raised = filter.Raise(cells, raise, 0.01, out var told);
                Told(living, (one, _) => (one.Raise(cells, raise, 0.01, out var tale), tale), raised, told);
                break;
            default:
                var term = CountTerm.Of(Evidence(random, seen));
                var (clumping, detection) = (new Lane(5) * each, new Lane(0.3) * each);
                var result = filter.Observe(cells, term, clumping, detection, 0.005, out var observed);
                Told(
                    living,
                    (one, lane) =>
                    {
                        var unknowns = new CountUnknowns(clumping[lane], detection[lane]);
                        return (one.Observe(cells, term, unknowns, 0.005, out var tale), tale);
                    },
                    result,
                    observed
                );
                break;
        }

        return moved;

        void Alone(Action<NumberFilter, int> step)
        {
            for (var lane = 0; lane < alone.Length; lane++)
            {
                step(alone[lane], lane);
            }
        }

        void Told(
            int[] total,
            Func<NumberFilter, int, (double LogEvidence, TotalTold Tale)> step,
            Lane logEvidence,
            LaneTold told
        )
        {
            for (var lane = 0; lane < alone.Length; lane++)
            {
                var (cancels, reach) = Narrowness(alone[lane], total);
                var (expected, tale) = step(alone[lane], lane);
                var log = LogTolerance + cancels;
                moved[lane] = log * Math.Max(1, reach);
                Assert.Equal(expected, logEvidence[lane], log);
                // That logarithm says how far a count is believed, which moves the total by less than its reach; and all is
                // divided by the variance, which is a sum of terms of up to some 1e4 that cancel.
                var sharp = tale.InverseVariance > 0 ? Math.Min(1e4, tale.InverseVariance) : 1e4;
                var relative = 1e-9 + Math.Min(1, 2e-12 * tale.InverseVariance);
                Assert.Equal(
                    tale.Pull,
                    told.Pull[lane],
                    (1e-9 * (1 + sharp))
                        + (relative * Math.Abs(tale.Pull))
                        + (log * reach * tale.InverseVariance)
                );
                Assert.Equal(
                    tale.Narrowed,
                    told.Narrowed[lane],
                    (1e-9 * (1 + sharp))
                        + (relative * Math.Abs(tale.Narrowed))
                        + (log * reach * reach * tale.InverseVariance)
                );
            }
        }

        void Thin()
        {
            Lane[] survival = [.. Enumerable.Range(0, Cells).Select(_ => Of(_ => random.NextDouble()))];
            Lane[] one = [.. Enumerable.Range(0, Cells).Select(_ => Of(_ => random.NextDouble()))];
            Lane[] other = [.. Enumerable.Range(0, Cells).Select(_ => Of(_ => random.NextDouble()))];
            int[] vessels = [0, 1, 0, 1];
            filter.Thin(survival, one, other, vessels);
            for (var lane = 0; lane < alone.Length; lane++)
            {
                var at = lane;
                alone[lane].Thin(Array.ConvertAll(survival, all => all[at]));
                foreach (
                    var together in (int[][])
                        [
                            [0, 2],
                            [1, 3],
                        ]
                )
                {
                    alone[lane]
                        .Shake(
                            together,
                            Array.ConvertAll(one, all => all[at]),
                            Array.ConvertAll(other, all => all[at])
                        );
                }
            }
        }
    }

    // Of a total: what terms of a logarithm of a probability may differ by after they cancelled, which are the
    // larger the narrower the belief; and how far a count can move the total. No variance counts as less than 1e-4.
    private static (double Cancels, double Reach) Narrowness(NumberFilter filter, int[] total)
    {
        var (mean, variance) = (0.0, 0.0);
        for (var i = 0; i < total.Length; i++)
        {
            for (var j = 0; j < total.Length; j++)
            {
                variance += total[i] * total[j] * At(filter, i, j);
            }

            mean += total[i] * filter.Mean[i];
        }

        mean = Math.Max(mean, 0.02);
        variance = Math.Max(variance, 1e-4);
        var shape = mean * mean / variance;
        var terms = shape * (3 + Math.Abs(Math.Log(shape)) + Math.Abs(Math.Log(mean)));
        return (1e-15 * terms, (7 * Math.Sqrt(variance)) + (2 * variance / mean));
    }

    private static CountEvidence Evidence(Random random, int seen) =>
        random.Next(9) switch
        {
            0 => new AliquotEvidence([new(seen / 10, 0.05), new(seen / 9, 0.05), new(seen / 3, 0.2)]),
            1 => new AliquotSumEvidence(seen / 3, 0.3, 4),
            2 => new KnownClumpingEvidence(seen / 2, 0.5, 6),
            3 => new LookEvidence(seen / 3, 0, 8, true),
            4 => new FullEvidence(seen, 0.05),
            5 => new AtLeastEvidence(seen / 2),
            6 => new KnownChanceEvidence(seen / 2, 0.5),
            7 => new TrialledEvidence(seen / 2, 9, 4),
            _ => new ExactEvidence(seen),
        };

    private static Lane Of(Func<int, double> number)
    {
        var each = new double[Lane.Count];
        for (var lane = 0; lane < each.Length; lane++)
        {
            each[lane] = number(lane);
        }

        return new(each);
    }

    private static void Same(NumberFilter alone, LaneFilter filter, int lane, double tolerance)
    {
        for (var i = 0; i < alone.Size; i++)
        {
            Assert.Equal(alone.Mean[i], filter.Mean[i][lane], tolerance * (1 + Math.Abs(alone.Mean[i])));
            for (var j = 0; j <= i; j++)
            {
                var scale = Math.Abs(At(alone, i, i)) + Math.Abs(At(alone, j, j)) + 1e4;
                Assert.Equal(
                    At(alone, i, j),
                    filter.Covariance[(i * (i + 1) / 2) + j][lane],
                    tolerance * scale
                );
            }
        }
    }

    private static double At(NumberFilter filter, int i, int j) => filter.Covariance[(i * filter.Size) + j];

    // The next step begins where the plain filters stand, each made symmetric.
    private static void Take(NumberFilter[] alone, LaneFilter filter)
    {
        for (var i = 0; i < filter.Size; i++)
        {
            filter.Mean[i] = Of(lane => alone[lane].Mean[i]);
            for (var j = 0; j <= i; j++)
            {
                filter.Covariance[(i * (i + 1) / 2) + j] = Of(lane => At(alone[lane], i, j));
                foreach (var one in alone)
                {
                    one.Covariance[(j * one.Size) + i] = At(one, i, j);
                }
            }
        }
    }
}
