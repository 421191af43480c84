using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Comparing;

/// <summary>On what the limits of a share rest.</summary>
public enum ArmBasis
{
    /// <summary>One vessel: the limits hold within it and say nothing of another one.</summary>
    WithinOneVessel,

    /// <summary>Several vessels, with what parts them: the limits hold for the mean of such vessels.</summary>
    BetweenVessels,

    /// <summary>Several vessels that all are 0 or all 1: nothing shows how vessels differ.</summary>
    AllAlike,
}

/// <summary>
/// The share of one treatment with vessels as the unit: a beta-binomial mean with a vessel effect (Williams 1975,
/// Biometrics 31:949), limits on the log odds by Student's t on vessels less one.
/// </summary>
/// <param name="Vessels">How many vessels.</param>
/// <param name="Share">5, 50 and 95 % points of the mean share, 0 to 1.</param>
/// <param name="Correlation">
/// Correlation between individuals of one vessel, 0 to 1; none with one vessel or where all are alike.
/// </param>
/// <param name="LogLikelihood">Log likelihood of the beta-binomial fit, nat; none where there is none.</param>
/// <param name="Basis">On what the limits rest.</param>
public sealed record ArmShare(
    int Vessels,
    Interval Share,
    double? Correlation,
    double? LogLikelihood,
    ArmBasis Basis
)
{
    private static readonly Probability Level = Probability.FromFraction(0.9);

    /// <summary>The share of one treatment.</summary>
    /// <param name="vessels">How many lived of how many, vessel by vessel, one vessel at least with one individual at least.</param>
    /// <exception cref="ArgumentException">There is no vessel.</exception>
    public static ArmShare Of(IReadOnlyList<Tally> vessels)
    {
        if (vessels.Count == 0)
        {
            throw new ArgumentException("A treatment needs a vessel.", nameof(vessels));
        }

        var all = new Tally(vessels.Sum(vessel => vessel.Happened), vessels.Sum(vessel => vessel.Trials));
        if (vessels.Count == 1 || all.Share is <= 0 or >= 1)
        {
            var limits = Proportions.Jeffreys(all, Level);
            return new(
                vessels.Count,
                Interval.FromPoints(
                    Math.Min(limits.Lower, all.Share),
                    all.Share,
                    Math.Max(limits.Upper, all.Share)
                ),
                null,
                null,
                vessels.Count == 1 ? ArmBasis.WithinOneVessel : ArmBasis.AllAlike
            );
        }

        var fit = BetaBinomialRegression.Fit(vessels, RegressionDesign.OneMean(vessels.Count));
        var (estimate, error) = (fit.Coefficients[0].Estimate, fit.Coefficients[0].StandardError ?? 0);
        var reach = StudentT.InvCDF(0, 1, vessels.Count - 1, 0.95) * error;
        return new(
            vessels.Count,
            Interval.FromPoints(
                BinomialLink.Logit.Inverse(estimate - reach),
                BinomialLink.Logit.Inverse(estimate),
                BinomialLink.Logit.Inverse(estimate + reach)
            ),
            fit.Correlation,
            fit.LogLikelihood,
            ArmBasis.BetweenVessels
        );
    }
}
