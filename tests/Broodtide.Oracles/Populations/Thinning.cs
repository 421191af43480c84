namespace Broodtide.Oracles.Populations;

/// <summary>
/// How many of n live through a step in which each lives with the same chance: the row Bin(m; n, survival), made from
/// the row of n - 1 by one more larva that lives or dies. All terms are positive, so nothing cancels.
/// </summary>
internal sealed class Thinning
{
    private readonly double _survival;
    private readonly List<double[]> _rows =
    [
        [1],
    ];
    private readonly Dictionary<int, double[]> _gathered = [];

    public Thinning(double survival) => _survival = survival;

    /// <summary>Chances of 0 to n.</summary>
    public double[] Row(int n)
    {
        while (_rows.Count <= n)
        {
            var before = _rows[^1];
            var row = new double[before.Length + 1];
            for (var m = 0; m < before.Length; m++)
            {
                row[m] += (1 - _survival) * before[m];
                row[m + 1] += _survival * before[m];
            }

            _rows.Add(row);
        }

        return _rows[n];
    }

    /// <summary>The number that an even draw from 0 to 1 stands for.</summary>
    public int Draw(int n, double even)
    {
        if (!_gathered.TryGetValue(n, out var gathered))
        {
            gathered = [.. Row(n)];
            for (var m = 1; m <= n; m++)
            {
                gathered[m] += gathered[m - 1];
            }

            _gathered[n] = gathered;
        }

        var at = Array.BinarySearch(gathered, even);
        return Math.Min(at >= 0 ? at : ~at, n);
    }
}
