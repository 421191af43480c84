using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>How many aliquots a wanted precision needs.</summary>
/// <param name="Exact">Aliquots before rounding up.</param>
/// <param name="CvOfOne">Coefficient of variation that one such aliquot has.</param>
/// <param name="LeastCvOfOne">The least that one aliquot of any size can have: 1 / sqrt(k); 0 where evenly mixed.</param>
/// <param name="ExactIfTwiceAsBig">Aliquots of twice the volume for the same precision, before rounding up.</param>
/// <param name="Limit">What limits: a code with arguments.</param>
public sealed record AliquotNeed(
    double Exact,
    double CvOfOne,
    double LeastCvOfOne,
    double ExactIfTwiceAsBig,
    Remark Limit
)
{
    /// <summary>Aliquots to take.</summary>
    public int Aliquots => RoundedUp(Exact);

    /// <summary>Aliquots of twice the volume to take.</summary>
    public int AliquotsIfTwiceAsBig => RoundedUp(ExactIfTwiceAsBig);

    // A whole number must not become the next one by rounding in the last digit.
    private static int RoundedUp(double exact) => Math.Max(1, (int)Math.Ceiling(exact - 1e-9));
}

/// <summary>
/// Aliquots and precision: CV^2 of the total = (1/m + 1/k)/n, with m the mean count of one aliquot and k the clumping
/// (Elliott 1977, Some Methods for the Statistical Analysis of Samples of Benthic Invertebrates). A bigger aliquot only
/// lowers 1/m; more aliquots lower both.
/// </summary>
public static class AliquotPlanning
{
    /// <summary>How many aliquots.</summary>
    /// <param name="meanSeen">Mean count of one aliquot, above zero.</param>
    /// <param name="wantedCv">Wanted coefficient of variation of the total, above zero, such as 0.15.</param>
    /// <param name="reciprocalK">1/k, 0 where evenly mixed; <see cref="ClumpingPrior.MeanReciprocal"/> where unknown.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits, or over a thousand million aliquots.</exception>
    public static AliquotNeed Need(double meanSeen, double wantedCv, double reciprocalK)
    {
        Finite.Positive(meanSeen);
        Finite.Positive(wantedCv);
        Finite.NotNegative(reciprocalK);
        var exact = Finite.Within(
            ((1 / meanSeen) + reciprocalK) / (wantedCv * wantedCv),
            0,
            1e9,
            nameof(wantedCv)
        );
        var twice = ((0.5 / meanSeen) + reciprocalK) / (wantedCv * wantedCv);
        var least = Math.Sqrt(reciprocalK);
        return new(
            exact,
            Math.Sqrt((1 / meanSeen) + reciprocalK),
            least,
            twice,
            Limit(meanSeen, wantedCv, least)
        );
    }

    /// <summary>Coefficient of variation of a total by so many aliquots.</summary>
    /// <param name="aliquots">How many, 1 or more.</param>
    /// <param name="meanSeen">Mean count of one, above zero.</param>
    /// <param name="reciprocalK">1/k, 0 where evenly mixed.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double Cv(int aliquots, double meanSeen, double reciprocalK)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(aliquots, 1);
        return Math.Sqrt(((1 / Finite.Positive(meanSeen)) + Finite.NotNegative(reciprocalK)) / aliquots);
    }

    // No size of one is enough; or clumping weighs more than the small number seen; or the other way round.
    private static Remark Limit(double meanSeen, double wantedCv, double least)
    {
        Argument leastPercent = new("leastCvPercent", 100 * least);
        if (least > wantedCv)
        {
            return new Remark(
                "aliquots-no-size-of-one-suffices",
                leastPercent,
                new("wantedCvPercent", 100 * wantedCv)
            );
        }

        return least * least > 1 / meanSeen
            ? new Remark("aliquots-more-beat-bigger", leastPercent)
            : new Remark("aliquots-number-seen-limits", new Argument("meanSeen", meanSeen));
    }
}
