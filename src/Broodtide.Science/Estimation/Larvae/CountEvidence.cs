namespace Broodtide.Science.Estimation.Larvae;

/// <summary>How living larvae were counted and what was seen.</summary>
public abstract record CountEvidence;

/// <summary>One aliquot: what was seen, and its share of the vessel's water.</summary>
/// <param name="Seen">Larvae seen, zero or more.</param>
/// <param name="Share">Share of the vessel's water, above 0, at most 1.</param>
public sealed record SampledShare(int Seen, double Share);

/// <summary>Aliquots, each its own number: negative binomial with the run's clumping.</summary>
/// <param name="Samples">The aliquots.</param>
public sealed record AliquotEvidence(IReadOnlyList<SampledShare> Samples) : CountEvidence;

/// <summary>Only the sum over some aliquots of one size is known.</summary>
/// <param name="Seen">Larvae seen in all.</param>
/// <param name="Share">Share of the vessel's water in all of them together.</param>
/// <param name="Aliquots">How many aliquots.</param>
public sealed record AliquotSumEvidence(int Seen, double Share, int Aliquots) : CountEvidence;

/// <summary>Each larva was seen with a known chance, independently: binomial.</summary>
/// <param name="Seen">Larvae seen.</param>
/// <param name="Chance">The chance, above 0, at most 1.</param>
public sealed record KnownChanceEvidence(int Seen, double Chance) : CountEvidence;

/// <summary>A negative binomial count with a known clumping.</summary>
/// <param name="Seen">Larvae seen.</param>
/// <param name="Share">Mean seen for each larva alive.</param>
/// <param name="Size">The size of the law.</param>
public sealed record KnownClumpingEvidence(int Seen, double Share, double Size) : CountEvidence;

/// <summary>Seen with a chance that is known from trials: beta-binomial.</summary>
/// <param name="Seen">Larvae seen.</param>
/// <param name="Found">Parameter a of the beta: one and those found in trials.</param>
/// <param name="Missed">Parameter b of the beta: one and those missed in trials.</param>
public sealed record TrialledEvidence(int Seen, double Found, double Missed) : CountEvidence;

/// <summary>Every larva was counted, with an error of recounting.</summary>
/// <param name="Seen">Larvae counted.</param>
/// <param name="ErrorCv">Coefficient of variation of a recount, above 0.</param>
public sealed record FullEvidence(int Seen, double ErrorCv) : CountEvidence;

/// <summary>Counted, and trusted exactly: two full counts agreed.</summary>
/// <param name="Seen">Larvae counted.</param>
public sealed record ExactEvidence(int Seen) : CountEvidence;

/// <summary>A look whose detection the run's detection class tells: a glance, a beam of light.</summary>
/// <param name="Seen">Larvae seen.</param>
/// <param name="Class">Number of the detection class in the priors.</param>
/// <param name="Scatter">Size of the negative binomial scatter of such looks.</param>
/// <param name="FadesWithLight">Whether larvae past the attraction to light escape it.</param>
public sealed record LookEvidence(int Seen, int Class, double Scatter, bool FadesWithLight) : CountEvidence;

/// <summary>A look that cannot lower the estimate: at least those seen are there.</summary>
/// <param name="Seen">Larvae seen.</param>
public sealed record AtLeastEvidence(int Seen) : CountEvidence;
