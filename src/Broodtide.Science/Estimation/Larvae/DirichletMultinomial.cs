using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The probability of a stage sample whose shares are known only about.</summary>
internal static class DirichletMultinomial
{
    /// <summary>
    /// Natural logarithm, without the combinatorial constant: Gamma(f)/Gamma(n+f) times the product of
    /// Gamma(x+fp)/Gamma(fp), which for whole x are rising products.
    /// </summary>
    /// <param name="tallies">How many in each stage.</param>
    /// <param name="shares">Expected shares, sum 1.</param>
    /// <param name="mistakes">Share of larvae put in any stage by mistake, 0 to 1.</param>
    /// <param name="precision">f: the smaller, the more samples differ.</param>
    internal static double Log(
        ReadOnlySpan<int> tallies,
        ReadOnlySpan<double> shares,
        double mistakes,
        double precision
    )
    {
        double sum = 0;
        var all = 0;
        for (var stage = 0; stage < tallies.Length; stage++)
        {
            // A stage the species does not have is met with the chance of a mistake.
            var share = stage < shares.Length ? shares[stage] : 0;
            var mixed = ((1 - mistakes) * share) + (mistakes / shares.Length);
            sum += LogRising(precision * mixed, tallies[stage]);
            all += tallies[stage];
        }

        return sum - LogRising(precision, all);
    }

    /// <summary>The same for several suppositions in step, one a lane.</summary>
    /// <param name="tallies">How many in each stage.</param>
    /// <param name="shares">Expected shares, sum 1 or all zero.</param>
    /// <param name="mistakes">Share of larvae put in any stage by mistake, 0 to 1.</param>
    /// <param name="precision">f: the smaller, the more samples differ.</param>
    internal static Lane Log(
        ReadOnlySpan<int> tallies,
        ReadOnlySpan<Lane> shares,
        Lane mistakes,
        double precision
    )
    {
        var sum = Lane.Zero;
        var all = 0;
        for (var stage = 0; stage < tallies.Length; stage++)
        {
            if (tallies[stage] > 0)
            {
                var share = stage < shares.Length ? shares[stage] : Lane.Zero;
                var mixed = ((Lane.One - mistakes) * share) + (mistakes / new Lane(shares.Length));
                sum += Lanes.LogRising(new Lane(precision) * mixed, tallies[stage]);
                all += tallies[stage];
            }
        }

        return sum - new Lane(LogRising(precision, all));
    }

    private static double LogRising(double from, int steps)
    {
        double sum = 0;
        var product = 1.0;
        for (var i = 0; i < steps; i++)
        {
            product *= from + i;
            if (product is > 1e200 or < 1e-200)
            {
                sum += Math.Log(product);
                product = 1;
            }
        }

        return sum + Math.Log(product);
    }
}
