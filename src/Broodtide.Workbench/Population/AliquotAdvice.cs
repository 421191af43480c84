using Broodtide.Science.Counting;
using Broodtide.Units;

namespace Broodtide.Workbench.Population;

/// <summary>What some aliquots say, how they vary, and what would make the answer narrower.</summary>
/// <param name="Larvae">5, 50 and 95 % points of the number in the vessel.</param>
/// <param name="Estimate">The counts scaled up by volume, larvae.</param>
/// <param name="Dispersion">How the counts vary; none for one aliquot, unequal volumes, or nothing seen.</param>
/// <param name="Clumping">Clumping k as these aliquots tell it.</param>
/// <param name="ReciprocalClumping">Mean of 1/k as these aliquots tell it, by which clumping enters the precision.</param>
/// <param name="Cv">Coefficient of variation of the total by these aliquots; none where nothing was seen.</param>
/// <param name="CvOfTwiceAsMany">The same with twice as many aliquots of this size.</param>
/// <param name="CvOfTwiceAsBig">The same with as many aliquots of twice the size.</param>
/// <param name="Remarks">What a reader should know, what narrows it most first.</param>
public sealed record AliquotAdvice(
    Interval Larvae,
    double Estimate,
    DispersionIndex? Dispersion,
    Interval? Clumping,
    double ReciprocalClumping,
    double? Cv,
    double? CvOfTwiceAsMany,
    double? CvOfTwiceAsBig,
    IReadOnlyList<Remark> Remarks
);

/// <summary>Advice for who counts by aliquots.</summary>
public static class AliquotAdvices
{
    // A chance this small is pointed out, on either side.
    private const double Unlikely = 0.025;

    /// <summary>Reads some aliquots of one vessel.</summary>
    /// <param name="aliquots">One aliquot or more.</param>
    /// <param name="water">Water in the vessel before they were taken; not less than the aliquots together.</param>
    /// <param name="clumping">What is believed of the clumping before; the usual prior if none is given.</param>
    /// <exception cref="ArgumentException">No aliquot.</exception>
    /// <exception cref="ArgumentOutOfRangeException">More water sampled than the vessel held.</exception>
    public static AliquotAdvice Of(
        IReadOnlyList<AliquotSeen> aliquots,
        Volume water,
        ClumpingPrior? clumping = null
    )
    {
        var posterior = AliquotTotal.Posterior(aliquots, water, clumping);
        var larvae = posterior.ToInterval();
        var seen = aliquots.Sum(aliquot => (double)aliquot.Seen);
        var sampled = aliquots.Sum(aliquot => aliquot.Volume.Litres);
        var equal = aliquots.Select(aliquot => aliquot.Volume).Distinct().Count() == 1;
        var dispersion =
            equal && aliquots.Count > 1 && seen > 0
                ? Dispersion.Of([.. aliquots.Select(aliquot => aliquot.Seen)])
                : null;
        var reciprocal = posterior.ReciprocalClumping;
        double? Cv(double times, double size) =>
            seen > 0
                ? Math.Sqrt(
                    ((1 / (seen * times * size)) + (reciprocal / (aliquots.Count * times)))
                        // What was counted needs no guess.
                        * Math.Max(0, 1 - (sampled * times * size / water.Litres))
                )
                : null;
        return new(
            larvae,
            AliquotScaling.Total(aliquots, water),
            dispersion,
            posterior.Clumping,
            reciprocal,
            Cv(1, 1),
            Cv(2, 1),
            Cv(1, 2),
            Remarks(seen, larvae, dispersion, reciprocal)
        );
    }

    private static List<Remark> Remarks(
        double seen,
        Interval larvae,
        DispersionIndex? dispersion,
        double reciprocal
    )
    {
        var remarks = new List<Remark>();
        if (seen <= 0)
        {
            remarks.Add(new Remark("count-none-seen", new Argument("number", larvae.High)));
        }
        else
        {
            remarks.Add(
                reciprocal > 0 && larvae.Width > 0
                    ? new Remark("aliquots-more-narrow-most")
                    : new Remark("aliquots-water-narrows")
            );
        }

        if (dispersion?.ClumpedChance.Value < Unlikely)
        {
            remarks.Add(
                new Remark("aliquots-clumped", new Argument("chance", dispersion.ClumpedChance.Value))
            );
        }

        if (dispersion?.RegularChance.Value < Unlikely)
        {
            remarks.Add(
                new Remark("aliquots-too-regular", new Argument("chance", dispersion.RegularChance.Value))
            );
        }

        return remarks;
    }
}
