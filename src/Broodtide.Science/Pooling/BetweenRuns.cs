namespace Broodtide.Science.Pooling;

/// <summary>How the variance between runs is found.</summary>
public enum BetweenRuns
{
    /// <summary>By restricted likelihood (Viechtbauer 2005, J. Educ. Behav. Stat. 30:261): the usual way here.</summary>
    RestrictedLikelihood,

    /// <summary>By likelihood.</summary>
    Likelihood,

    /// <summary>By the moments of DerSimonian and Laird 1986, Control. Clin. Trials 7:177.</summary>
    DerSimonianLaird,

    /// <summary>By the moments of Paule and Mandel 1982, J. Res. Natl. Bur. Stand. 87:377.</summary>
    PauleMandel,

    /// <summary>There is none: all runs have one and the same truth.</summary>
    None,
}
