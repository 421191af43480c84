namespace Broodtide.Science.Counting;

/// <summary>What is believed of a number before it is counted.</summary>
public enum CountPrior
{
    /// <summary>
    /// Proportional to 1/N: the posterior mean is the plain estimate. Says nothing after none were seen.
    /// </summary>
    Reciprocal,

    /// <summary>All numbers alike: leans to the high side, and has an answer after none were seen.</summary>
    Flat,

    /// <summary>
    /// Between the two, near 1/sqrt(N) (Jeffreys' prior of a Poisson mean): limits hold about as often as they say, also
    /// after none were seen.
    /// </summary>
    InverseRoot,
}

/// <summary>The priors as functions.</summary>
internal static class CountPriors
{
    /// <summary>What the prior adds to a count, as if so many more had been seen.</summary>
    internal static double Shape(this CountPrior prior) =>
        prior switch
        {
            CountPrior.Reciprocal => 0,
            CountPrior.Flat => 1,
            CountPrior.InverseRoot => 0.5,
            _ => throw new ArgumentOutOfRangeException(nameof(prior), prior, "No such prior."),
        };

    /// <summary>Refuses the one prior that has no posterior after none were seen.</summary>
    internal static void MustAnswer(this CountPrior prior, bool anySeen)
    {
        if (!anySeen && prior == CountPrior.Reciprocal)
        {
            throw new ArgumentException(
                "After none were seen the prior 1/N has no posterior; take the flat one or the inverse root.",
                nameof(prior)
            );
        }
    }
}
