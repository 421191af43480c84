namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What follows from one supposition.</summary>
/// <param name="LogLikelihood">The logarithm of the probability of everything seen.</param>
/// <param name="Alive">Larvae alive in the end, mean.</param>
internal readonly record struct SuppositionResult(double LogLikelihood, double Alive);

/// <summary>Weighted points of the unknowns.</summary>
/// <param name="Points">Each point on the standard normal scale of the prior.</param>
/// <param name="Weights">Their weights, sum 1.</param>
/// <param name="Results">What follows from each point.</param>
/// <param name="EffectiveSize">One over the sum of squared weights: how many points really speak.</param>
internal sealed record WeightedPoints(
    double[][] Points,
    double[] Weights,
    SuppositionResult[] Results,
    double EffectiveSize
)
{
    /// <summary>
    /// The same in fewer points, taken at even steps of the running sum of weights, from few larvae alive to many
    /// (systematic resampling, Kitagawa 1996, of points in order): numbers of points, with how often each was taken.
    /// </summary>
    internal List<(int Point, int Times)> Even(int count)
    {
        int[] order = [.. Enumerable.Range(0, Points.Length).OrderBy(point => Results[point].Alive)];
        List<(int Point, int Times)> chosen = [];
        var place = 0;
        var sum = Weights[order[0]];
        for (var i = 0; i < count; i++)
        {
            var level = (i + 0.5) / count;
            while (sum < level && place < order.Length - 1)
            {
                sum += Weights[order[++place]];
            }

            if (chosen is [.., var (last, times)] && last == order[place])
            {
                chosen[^1] = (last, times + 1);
            }
            else
            {
                chosen.Add((order[place], 1));
            }
        }

        return chosen;
    }
}
