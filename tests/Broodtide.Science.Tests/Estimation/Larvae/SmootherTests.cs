using Broodtide.Science.Estimation.Larvae;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>
/// The way back beside its plain twin: a state so large that it holds every asked day beside the last one, in which each
/// count corrects all of them at once by linear regression.
/// </summary>
public sealed class SmootherTests
{
    private const int Cells = 3;
    private const int Size = Cells + 2;

    [Fact]
    public void Going_back_says_what_a_state_that_holds_all_asked_days_says() =>
        Gen.Int[0, 1 << 20].Sample(seed => Compare(new Random(seed)), iter: 300, threads: 1);

    private static void Compare(Random random)
    {
        var filter = new NumberFilter(Cells);
        filter.Clear(0.04);
        var twin = new Twin(filter);
        List<Action<LarvalAdjoint>> back = [];
        List<(double[] Mean, double[] Covariance)> told = [];
        List<int> order = [];
        for (var step = 0; step < 14; step++)
        {
            switch (step < 2 ? step : random.Next(6))
            {
                case 0:
                    var (to, number) = (random.Next(Cells), 50 + (100 * random.NextDouble()));
                    filter.AddShared(to, number, 400);
                    twin.Change(Arrival(to, number), filter);
                    back.Add(adjoint => adjoint.Arrived(to, number));
                    break;
                case 1:
                    filter.Add(1, 80, 900);
                    twin.Change(Same(), filter);
                    break;
                case 2:
                    double[] survival =
                    [
                        .. Enumerable.Range(0, Cells).Select(_ => 0.7 + (0.3 * random.NextDouble())),
                    ];
                    filter.Thin(survival);
                    twin.Change(Scale([.. survival, 1, 1]), filter);
                    back.Add(adjoint => adjoint.Thinned(survival));
                    break;
                case 3:
                    var (from, into, share) = (random.Next(Cells), random.Next(Cells), random.NextDouble());
                    if (from != into)
                    {
                        filter.Move(from, into, share);
                        twin.Change(Moving(from, into, share), filter);
                        back.Add(adjoint => adjoint.Moved(from, into, share));
                    }

                    break;
                case 4:
                    var place = told.Count;
                    told.Add(([.. filter.Mean], [.. filter.Covariance]));
                    twin.Ask();
                    back.Add(adjoint => adjoint.Smooth(told[place].Mean, told[place].Covariance));
                    break;
                default:
                    // Of all cells and near what is believed, so that no cell falls below nothing.
                    const ulong all = (1UL << Cells) - 1;
                    var seen = (int)(filter.Total(all).Mean * (0.9 + (0.2 * random.NextDouble())));
                    var before = filter.Mean.ToArray();
                    filter.Observe(all, CountTerm.Of(new FullEvidence(seen, 0.15)), default, 0, out var tale);
                    twin.Count(all, before, filter);
                    var gain = filter.Gain.ToArray();
                    back.Add(adjoint => adjoint.Told(all, 0, gain, tale));
                    break;
            }
        }

        var way = new LarvalAdjoint(Size);
        for (var i = back.Count - 1; i >= 0; i--)
        {
            back[i](way);
        }

        for (var i = 0; i < told.Count; i++)
        {
            var (mean, covariance) = twin.Told(i);
            for (var a = 0; a < Size; a++)
            {
                Assert.Equal(mean[a], told[i].Mean[a], 1e-6 * (1 + Math.Abs(mean[a])));
                for (var b = 0; b < Size; b++)
                {
                    var scale = 1 + Math.Sqrt(Math.Abs(covariance[a, a] * covariance[b, b]));
                    Assert.Equal(covariance[a, b], told[i].Covariance[(a * Size) + b], 1e-6 * scale);
                }
            }
        }
    }

    private static double[,] Same() => Scale([1, 1, 1, 1, 1]);

    private static double[,] Scale(double[] each)
    {
        var matrix = new double[Size, Size];
        for (var i = 0; i < Size; i++)
        {
            matrix[i, i] = each[i];
        }

        return matrix;
    }

    private static double[,] Arrival(int cell, double number)
    {
        var matrix = Same();
        matrix[cell, Size - 1] = number;
        matrix[Size - 2, Size - 1] = number;
        return matrix;
    }

    private static double[,] Moving(int from, int to, double share)
    {
        var matrix = Same();
        matrix[from, from] = 1 - share;
        matrix[to, from] = share;
        return matrix;
    }

    /// <summary>Asked days first, the present last.</summary>
    private sealed class Twin(NumberFilter start)
    {
        private double[] _mean = [.. start.Mean];
        private double[,] _covariance = Square(start.Covariance);

        private int Asked => (_mean.Length / Size) - 1;

        public void Ask()
        {
            var (length, now) = (_mean.Length, _mean.Length - Size);
            // The present once more, in front of itself.
            int[] source = [.. Enumerable.Range(0, length), .. Enumerable.Range(now, Size)];
            _mean = [.. source.Select(i => _mean[i])];
            var larger = new double[source.Length, source.Length];
            for (var i = 0; i < source.Length; i++)
            {
                for (var j = 0; j < source.Length; j++)
                {
                    larger[i, j] = _covariance[source[i], source[j]];
                }
            }

            _covariance = larger;
        }

        // The present's own mean and covariance are the filter's; what asked days share with it goes through the matrix.
        public void Change(double[,] matrix, NumberFilter filter)
        {
            var now = _mean.Length - Size;
            for (var i = 0; i < now; i++)
            {
                double[] old = [.. Enumerable.Range(0, Size).Select(j => _covariance[i, now + j])];
                for (var j = 0; j < Size; j++)
                {
                    var sum = Enumerable.Range(0, Size).Sum(k => matrix[j, k] * old[k]);
                    _covariance[i, now + j] = sum;
                    _covariance[now + j, i] = sum;
                }
            }

            Present(filter);
        }

        public void Count(ulong cells, double[] before, NumberFilter filter)
        {
            var now = _mean.Length - Size;
            int[] counted =
            [
                .. Enumerable
                    .Range(0, Cells)
                    .Where(cell => (cells >> cell & 1) == 1)
                    .Select(cell => now + cell),
            ];
            double[] withTotal =
            [
                .. Enumerable.Range(0, _mean.Length).Select(i => counted.Sum(c => _covariance[i, c])),
            ];
            var variance = counted.Sum(c => withTotal[c]);
            var step = counted.Sum(c => filter.Mean[c - now] - before[c - now]);
            var less = variance - filter.Total(cells).Variance;
            for (var i = 0; i < _mean.Length; i++)
            {
                _mean[i] += withTotal[i] / variance * step;
                for (var j = 0; j < _mean.Length; j++)
                {
                    _covariance[i, j] -= withTotal[i] / variance * (withTotal[j] / variance) * less;
                }
            }
        }

        public (double[] Mean, double[,] Covariance) Told(int asked)
        {
            Assert.InRange(asked, 0, Asked - 1);
            var from = asked * Size;
            var covariance = new double[Size, Size];
            for (var i = 0; i < Size; i++)
            {
                for (var j = 0; j < Size; j++)
                {
                    covariance[i, j] = _covariance[from + i, from + j];
                }
            }

            return (_mean[from..(from + Size)], covariance);
        }

        private void Present(NumberFilter filter)
        {
            var now = _mean.Length - Size;
            for (var i = 0; i < Size; i++)
            {
                _mean[now + i] = filter.Mean[i];
                for (var j = 0; j < Size; j++)
                {
                    _covariance[now + i, now + j] = filter.Covariance[(i * Size) + j];
                }
            }
        }

        private static double[,] Square(double[] flat)
        {
            var square = new double[Size, Size];
            for (var i = 0; i < flat.Length; i++)
            {
                square[i / Size, i % Size] = flat[i];
            }

            return square;
        }
    }
}
