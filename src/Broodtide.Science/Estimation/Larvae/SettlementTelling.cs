using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// When larvae settle: for each supposition the share settled by a day is a mixture over the cohorts, and its
/// points are found by looking backward from it. Which larvae there will be is a matter of chance too, so each
/// point is told at three levels.
/// </summary>
internal sealed class SettlementTelling
{
    private const int Levels = 3;
    private static readonly double[] Shares = [0.1, 0.5, 0.9];
    private readonly LarvalProgram _program;
    private readonly int _count;
    private readonly ulong _told;
    private readonly double[][] _days;
    private readonly double[][] _cells;
    private readonly double[] _sharesOfCells;
    private readonly double[] _inverseRoots;

    // Share settled by each day of the forecast under the supposition at hand; not a number where not asked yet.
    private readonly double[] _settledBy;

    /// <param name="program">The run.</param>
    /// <param name="count">Number of suppositions.</param>
    /// <param name="cells">Bits of the cells that are told of; all if left out.</param>
    internal SettlementTelling(LarvalProgram program, int count, ulong cells = ulong.MaxValue)
    {
        _program = program;
        _count = count;
        _told = cells;
        _days = [.. Enumerable.Range(0, Shares.Length + 1).Select(_ => new double[count * Levels])];
        _cells = new double[count][];
        _sharesOfCells = new double[program.CellCount];
        _inverseRoots = new double[program.LogEnds.Length];
        _settledBy = new double[program.ForecastAges[0].Length];
    }

    /// <summary>Takes a supposition.</summary>
    /// <param name="i">Its number.</param>
    /// <param name="point">The supposition.</param>
    /// <param name="numbers">Larvae in each cell when the run ends.</param>
    /// <param name="settledGone">Settled ones taken out of each.</param>
    internal void Take(
        int i,
        LarvalPoint point,
        ReadOnlySpan<double> numbers,
        ReadOnlySpan<double> settledGone
    )
    {
        double all = 0;
        for (var c = 0; c < numbers.Length; c++)
        {
            _sharesOfCells[c] = IsTold(c) ? Math.Max(0, numbers[c]) + settledGone[c] : 0;
            all += _sharesOfCells[c];
        }

        _cells[i] = numbers.ToArray();
        if (all <= 0)
        {
            // Nobody is left by this supposition; the clock of those that were goes on.
            var told = Enumerable.Range(0, _sharesOfCells.Length).Count(IsTold);
            for (var c = 0; c < _sharesOfCells.Length; c++)
            {
                _sharesOfCells[c] = IsTold(c) ? 1.0 / told : 0;
            }

            all = 1;
        }
        else
        {
            for (var c = 0; c < _sharesOfCells.Length; c++)
            {
                _sharesOfCells[c] /= all;
            }
        }

        var clock = Observed(point);
        Array.Fill(_settledBy, double.NaN);
        for (var level = 0; level < Levels; level++)
        {
            var off = (level - 1) * LarvalTelling.ThreePoints;
            for (var share = 0; share < Shares.Length; share++)
            {
                var p = Shares[share];
                var seen = p + (off * Math.Sqrt(p * (1 - p) / Math.Max(all, 4)));
                _days[share][(i * Levels) + level] = DayAt(Math.Clamp(seen, 0.01, 0.99), point, clock);
            }

            // The first of N: 1 - (1-F)^N, at a sixth, half and five sixths.
            var chance = (level + 0.5) / Levels;
            var first = -Math.Log(1 - chance) / Math.Max(1, all);
            _days[Shares.Length][(i * Levels) + level] = DayAt(
                Math.Clamp(1 - Math.Exp(-first), 1e-7, 0.99),
                point,
                clock
            );
        }
    }

    private bool IsTold(int cell) => ((_told >> cell) & 1) != 0;

    internal double HalfDay(int i) => _days[1][(i * Levels) + 1];

    /// <param name="weights">The share of each supposition, sum 1.</param>
    internal SettlementWindow Window(double[] weights)
    {
        double[] each = [.. weights.SelectMany(weight => Enumerable.Repeat(weight / Levels, Levels))];
        return new(
            WeightedPoint.Interval(_days[Shares.Length], each),
            WeightedPoint.Interval(_days[0], each),
            WeightedPoint.Interval(_days[1], each),
            WeightedPoint.Interval(_days[2], each)
        );
    }

    /// <summary>Settled ones alive on a day to come.</summary>
    internal Interval Juveniles(LarvalDraw[] draws, double day)
    {
        var means = new double[_count];
        var variances = new double[_count];
        var place = Math.Max(_program.PlaceOf(day), 0);
        var now = Math.Max(_program.PlaceOf(_program.Run.Now), 0);
        for (var i = 0; i < _count; i++)
        {
            var point = draws[i].Point;
            var clock = new StageClock(_inverseRoots, _program.LogEnds, point);
            double survivors = 0;
            for (var c = 0; c < _cells[i].Length; c++)
            {
                var before = clock.Settled(Math.Cbrt(AgeAt(c, now, point)));
                var after = clock.Settled(Math.Cbrt(AgeAt(c, place, point)));
                var days = At(_program.ForecastHazard[c], place) - At(_program.ForecastHazard[c], now);
                var survival =
                    Math.Exp(-point.BaseHazard * Math.Max(0, days))
                    * Math.Min(
                        1,
                        (1 - (point.MetamorphosisLoss * after)) / (1 - (point.MetamorphosisLoss * before))
                    );
                survivors += Math.Max(0, _cells[i][c]) * survival * after;
            }

            var share = draws[i].Mean > 0 ? Math.Min(1, survivors / draws[i].Mean) : 0;
            var ahead = Math.Max(0, day - _program.Run.Now);
            means[i] = survivors;
            variances[i] =
                (draws[i].Variance * share * share)
                + (survivors * (1 - share))
                + (point.BadDays * point.BadDays * ahead * survivors * survivors);
        }

        return new NumberMixture(Array.ConvertAll(draws, draw => draw.Weight), means, variances).Whole();
    }

    // Those that are seen to settle lived to do so: a steady hazard makes the slow ones rarer, which for a gamma law
    // with need D and variation v divides its scale by 1 + hazard D v^2.
    private StageClock Observed(LarvalPoint point) =>
        new(
            _inverseRoots,
            _program.LogEnds,
            point,
            hastened: 1 + (point.BaseHazard * point.Development * point.Cv * point.Cv)
        );

    private double DayAt(double share, LarvalPoint point, in StageClock clock)
    {
        var low = 0;
        var high = _program.ForecastAges[0].Length - 1;
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (SettledBy(middle, point, clock) < share)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        var below = SettledBy(low, point, clock);
        var above = SettledBy(high, point, clock);
        var between = above > below ? Math.Clamp((share - below) / (above - below), 0, 1) : 0.5;
        return _program.ForecastDay(low + between);
    }

    private double SettledBy(int place, LarvalPoint point, in StageClock clock)
    {
        if (!double.IsNaN(_settledBy[place]))
        {
            return _settledBy[place];
        }

        double sum = 0;
        for (var c = 0; c < _sharesOfCells.Length; c++)
        {
            if (_sharesOfCells[c] > 0)
            {
                sum += _sharesOfCells[c] * clock.Settled(Math.Cbrt(AgeAt(c, place, point)));
            }
        }

        _settledBy[place] = sum;
        return sum;
    }

    private double AgeAt(int cell, double place, LarvalPoint point)
    {
        var age = At(_program.ForecastAges[cell], place);
        var ahead = Math.Max(0, _program.ForecastDay(place) - _program.Run.Now);
        return age + (point.FutureWarmth * _program.Run.Priors.DevelopmentPerKelvin * ahead);
    }

    private static double At(double[] values, double place)
    {
        var left = Math.Clamp((int)place, 0, values.Length - 2);
        return values[left] + ((place - left) * (values[left + 1] - values[left]));
    }
}
