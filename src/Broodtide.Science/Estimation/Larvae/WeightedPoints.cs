namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Weighted points of the unknowns.</summary>
/// <param name="Points">Each point on the standard normal scale of the prior.</param>
/// <param name="Weights">Their weights, sum 1.</param>
/// <param name="LogLikelihoods">The logarithm of the probability of everything seen, at each point.</param>
/// <param name="EffectiveSize">One over the sum of squared weights: how many points really speak.</param>
internal sealed record WeightedPoints(
    double[][] Points,
    double[] Weights,
    double[] LogLikelihoods,
    double EffectiveSize
)
{
    /// <summary>
    /// The same in fewer points, taken at even steps of the running sum of weights (systematic resampling,
    /// Kitagawa 1996): numbers of points, ascending, with how often each was taken.
    /// </summary>
    internal List<(int Point, int Times)> Even(int count)
    {
        List<(int Point, int Times)> chosen = [];
        var place = 0;
        var sum = Weights[0];
        for (var i = 0; i < count; i++)
        {
            var level = (i + 0.5) / count;
            while (sum < level && place < Weights.Length - 1)
            {
                sum += Weights[++place];
            }

            if (chosen is [.., var (last, times)] && last == place)
            {
                chosen[^1] = (place, times + 1);
            }
            else
            {
                chosen.Add((place, 1));
            }
        }

        return chosen;
    }
}
