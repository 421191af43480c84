using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Counting;
using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Reads a count: "how many this count alone says". Nothing else that is known of the vessel enters. None seen is
/// information and never says that none are left.
/// </summary>
public static class CountMeanings
{
    // Volumes are read off a side of the vessel or a pipette: so much over the vessel's water is the reading's error.
    private const double VolumeSlack = 1.02;
    private const double LeastAliquotLitres = 1e-6;
    private const double MostLarvae = 1e9;

    // The grid of a look reaches so many times the number seen; the chance of being seen is hardly ever less than that.
    private const int LookReach = 100;
    private const int LookExtra = 400;
    private const int MostGridPoints = 100_000;

    /// <summary>What a count says.</summary>
    /// <param name="count">The count as it was written down.</param>
    /// <param name="water">Water in the vessel then; none if nobody knows.</param>
    /// <param name="detection">
    /// The chance that this keeper's look of this kind counts a larva, from double counts; practice where none.
    /// </param>
    public static CountMeaning Of(CountMade count, Volume? water, BetaBelief? detection = null)
    {
        var remarks = new List<Remark>();
        foreach (var sample in count.Samples.Where(sample => sample.Seen < 0))
        {
            remarks.Add(new Remark("count-negative", new("field", "seen"), new("count", sample.Seen)));
        }

        var samples = count.Samples.Where(sample => sample.Seen >= 0).ToList();
        return count.Method == CountMethod.Aliquot
            ? OfAliquots(samples, water, remarks)
            : OfLook(count, samples, detection, remarks);
    }

    private static CountMeaning OfAliquots(List<Aliquot> samples, Volume? water, List<Remark> remarks)
    {
        var seen = samples.Sum(sample => (long)sample.Seen);
        var aliquots = samples
            .Where(sample => Litres(sample) >= LeastAliquotLitres)
            .Select(sample => new AliquotSeen(sample.Seen, Volume.FromLitres(Litres(sample))))
            .ToList();
        if (aliquots.Count < samples.Count || aliquots.Count == 0)
        {
            remarks.Add(
                new Remark(
                    "count-aliquot-without-volume",
                    new Argument("aliquots", samples.Count - aliquots.Count)
                )
            );
        }

        if (water is not { Litres: >= LeastAliquotLitres } whole)
        {
            remarks.Add(new Remark("count-water-unknown"));
            return new(null, seen, CountBasis.Aliquots, null, remarks);
        }

        var sampled = aliquots.Sum(aliquot => aliquot.Volume.Litres);
        if (sampled > VolumeSlack * whole.Litres)
        {
            remarks.Add(
                new Remark(
                    "count-aliquots-exceed-water",
                    new("sampledLitres", sampled),
                    new("waterLitres", whole.Litres)
                )
            );
            return new(null, seen, CountBasis.Aliquots, null, remarks);
        }

        if (aliquots.Count == 0 || (seen + 1) / sampled * whole.Litres > MostLarvae)
        {
            if (aliquots.Count > 0)
            {
                remarks.Add(new Remark("count-beyond-measure", new Argument("number", (double)seen)));
            }

            return new(null, seen, CountBasis.Aliquots, null, remarks);
        }

        var posterior = AliquotTotal.Posterior(aliquots, Volume.FromLitres(Math.Max(sampled, whole.Litres)));
        var larvae = posterior.ToInterval();
        NoneSeen(seen, larvae, remarks);
        return new(larvae, seen, CountBasis.Aliquots, posterior.Clumping, remarks);
    }

    private static CountMeaning OfLook(
        CountMade count,
        List<Aliquot> samples,
        BetaBelief? detection,
        List<Remark> remarks
    )
    {
        var seen = samples.Sum(sample => (long)sample.Seen);
        if (samples.Count == 0 || seen > MostLarvae)
        {
            remarks.Add(new Remark("count-beyond-measure", new Argument("number", (double)seen)));
            return new(null, seen, CountBasis.Look, null, remarks);
        }

        if (count.Method is CountMethod.Glance or CountMethod.Beam)
        {
            remarks.Add(new Remark("count-look-sees-few", new Argument("number", (double)seen)));
        }

        if (detection is null)
        {
            remarks.Add(new Remark("count-seen-share-by-practice"));
        }

        var larvae = Behind((int)seen, detection ?? ByPractice(count));
        NoneSeen(seen, larvae, remarks);
        return new(larvae, seen, CountBasis.Look, null, remarks);
    }

    private static BetaBelief ByPractice(CountMade count) =>
        count.Method switch
        {
            CountMethod.Full => SeenByLook.Full,
            CountMethod.Photo when LookClasses.IsLookedOver(count) => SeenByLook.PhotoLookedOver,
            CountMethod.Photo => SeenByLook.Photo,
            CountMethod.Beam => count.InDark == true ? SeenByLook.BeamInDark : SeenByLook.BeamInLight,
            _ => SeenByLook.Glance,
        };

    private static Interval Behind(int seen, BetaBelief detection)
    {
        var reach = ((double)seen * LookReach) + LookExtra;
        if (reach <= MostGridPoints)
        {
            // With the prior 1/N the chance of being seen stays what it was believed to be; none seen has no such answer.
            var prior = seen > 0 ? CountPrior.Reciprocal : CountPrior.InverseRoot;
            return PhotoCount.Posterior(new(seen, detection), prior, (int)reach).ToInterval();
        }

        // So many were seen that only the chance of being seen is in doubt.
        double At(double probability) =>
            seen / Math.Max(1e-9, detection.Quantile(Probability.FromFraction(1 - probability)));
        return Interval.FromPoints(At(0.05), At(0.5), At(0.95));
    }

    private static void NoneSeen(long seen, Interval larvae, List<Remark> remarks)
    {
        if (seen == 0)
        {
            remarks.Add(new Remark("count-none-seen", new Argument("number", larvae.High)));
        }
    }

    private static double Litres(Aliquot sample) => sample.Volume.AsVolume()?.Litres ?? 0;
}
