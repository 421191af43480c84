using System.Globalization;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Scoring;

/// <summary>Estimates larval runs, compares each row of truth and adds up by quantity.</summary>
public sealed class AliveBoard
{
    private const string Alive = "alive";
    private const string Median = "settled_median_day";
    private readonly Dictionary<string, List<(Interval Told, double Truth)>> _rows = new(
        StringComparer.Ordinal
    )
    {
        [Alive] = [],
        [Median] = [],
    };

    private readonly List<double> _effective = [];
    private readonly int[] _ranks = new int[RankBins];

    // Bins of the rank histogram (Talts et al. 2018); with 20 of them the sum of squares stays below 36.2 in 99 of 100.
    private const int RankBins = 20;
    private const double Golden = 0.6180339887498949;
    private readonly Func<LarvalRun, LarvalRun> _plant;
    private readonly bool _fractionOfEach;

    /// <param name="plant">Changes each run before it is estimated: a wrong model, to see that it is caught.</param>
    /// <param name="fractionOfEach">How fractions of several aliquots are read: see <see cref="FractionReading"/>.</param>
    public AliveBoard(Func<LarvalRun, LarvalRun>? plant = null, bool fractionOfEach = false)
    {
        _plant = plant ?? (run => run);
        _fractionOfEach = fractionOfEach;
    }

    public const string Header = "run,t_days,quantity,q05,q50,q95,truth,covered";

    /// <summary>Estimates one folder; gives a line for each row of its truth.</summary>
    /// <exception cref="FileTroubleException">A file is missing or cannot be read.</exception>
    public IEnumerable<string> Take(string folder)
    {
        var run = _plant(AliveRun.Read(Path.Combine(folder, "events.csv"), _fractionOfEach));
        var table = Table.Read(Path.Combine(folder, "truth.csv"), "t_days", "quantity", "value");
        var truths = table
            .Rows.Select(row =>
                (
                    Day: Table.Number(table.Text(row, 0)),
                    Quantity: table.Text(row, 1).ToLowerInvariant(),
                    Value: Table.Number(table.Text(row, 2))
                        ?? throw table.Trouble(row, $"value is '{table.Text(row, 2)}'; allowed is a number."),
                    Row: row
                )
            )
            .Where(row => _rows.ContainsKey(row.Quantity))
            .ToList();
        var days = truths
            .Where(row => row.Quantity == Alive)
            .Select(row => row.Day ?? throw table.Trouble(row.Row, "t_days is missing."))
            .ToList();
        var estimate = LarvalEstimator.Of(run, new LarvalQuestion { Days = days });
        _effective.Add(estimate.EffectiveSize);
        var next = 0;
        foreach (var (day, quantity, value, _) in truths)
        {
            var told = quantity == Alive ? estimate.Days[next++].All.Alive : estimate.Settlement.Half;
            _rows[quantity].Add((told, value));
            if (quantity == Alive && day is { } at && Math.Abs(at - run.Now) < 0.01)
            {
                TakeRank(estimate, Math.Round(value));
            }

            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{Path.GetFileName(folder)},{day:0.##},{quantity},{told.Low:0.##},{told.Middle:0.##},{told.High:0.##},{value:0.##},{(told.Contains(value) ? "yes" : "no")}"
            );
        }
    }

    public IEnumerable<string> Summary()
    {
        foreach (var (quantity, rows) in _rows.Where(pair => pair.Value.Count > 0))
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{quantity}: covered {Covered(rows)} of {rows.Count} ({100.0 * Covered(rows) / rows.Count:0.0} %), below {rows.Count(r => r.Truth < r.Told.Low)}, above {rows.Count(r => r.Truth > r.Told.High)}, mean relative width {Width(rows):0.000}, mean width {rows.Average(r => r.Told.Width):0.00}, interval score {rows.Average(Score):0.00}"
            );
        }

        if (_ranks.Sum() is var ranked and >= 5 * RankBins)
        {
            var even = (double)ranked / RankBins;
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"ranks of those alive now in {RankBins} bins: {string.Join(' ', _ranks)}; sum of squares {_ranks.Sum(count => (count - even) * (count - even) / even):0.0}, even at 1 % below {ChiSquared.InvCDF(RankBins - 1, 0.99):0.0}"
            );
        }

        _effective.Sort();
        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"effective sample size: median {_effective[_effective.Count / 2]:0}, least {_effective[0]:0}, under 50 in {_effective.Count(size => size < 50)} of {_effective.Count}"
        );
    }

    /// <summary>Whether 86 to 93.75 % (344 to 375 of 400) of the numbers alive are held, no wider than allowed.</summary>
    public bool IsCalibrated(double widest) =>
        _rows[Alive] is { Count: > 0 } rows
        && Covered(rows) >= 0.86 * rows.Count
        && Covered(rows) <= 0.9375 * rows.Count
        && Width(rows) <= widest;

    // A whole number takes up a stretch of probability; where in it the rank falls goes by steps that fill it evenly.
    private void TakeRank(LarvalEstimate estimate, double truth)
    {
        var below = truth > 0 ? estimate.ChanceAtMost(truth - 1) : 0;
        var step = (_ranks.Sum() + 1) * Golden % 1;
        var rank = below + (step * (estimate.ChanceAtMost(truth) - below));
        _ranks[Math.Clamp((int)(rank * RankBins), 0, RankBins - 1)]++;
    }

    private static int Covered(List<(Interval Told, double Truth)> rows) =>
        rows.Count(row => row.Told.Contains(row.Truth));

    private static double Width(List<(Interval Told, double Truth)> rows) =>
        rows.Average(row => row.Told.Width / Math.Max(1, row.Truth));

    private static double Score((Interval Told, double Truth) row) =>
        Board.Score((row.Told.Low, row.Told.High, row.Truth));
}
