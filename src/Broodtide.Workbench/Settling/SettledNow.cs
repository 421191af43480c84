using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.Population;

namespace Broodtide.Workbench.Settling;

/// <summary>
/// How many of a vessel live at the bottom and how many still swim as zoeae, from the estimate of its larvae. The ends of
/// the zoeae are cautious: those of the stages are added where they hide zoeae, never where they would deny them.
/// </summary>
/// <param name="Settled">Post-larvae, whole numbers.</param>
/// <param name="Zoeae">Larvae of any zoeal stage, whole numbers.</param>
/// <param name="SettledShare">Share settled of those that live, at the middle; 0 where nobody lives.</param>
public sealed record SettledNow(Interval Settled, Interval Zoeae, double SettledShare)
{
    /// <summary>Whether zoeae may still be there: one chance in twenty or more.</summary>
    public bool ZoeaeMayBeThere => Zoeae.High >= 1;

    /// <summary>Those of one vessel; none where none of the estimate lived in it.</summary>
    /// <param name="estimate">The estimate.</param>
    /// <param name="vessel">The vessel.</param>
    public static SettledNow? In(PopulationEstimate estimate, VesselId vessel)
    {
        if (
            estimate.Vessels.FirstOrDefault(part => part.Id == vessel) is not { } part
            || estimate.Stages.Count == 0
        )
        {
            return null;
        }

        var share = part.Now.StageShares.Count > 0 ? part.Now.StageShares[^1] : 0;
        // Stages are told for all vessels together: each vessel has of them what its larvae say.
        var settled = Scaled(
            estimate.Stages[^1].Number,
            Part(part.Now.Alive.Middle * share, estimate.All.Alive.Middle * estimate.Stages[^1].Share)
        );
        var zoeae = estimate.Stages.Take(estimate.Stages.Count - 1).ToList();
        var of = Part(
            part.Now.Alive.Middle * (1 - share),
            estimate.All.Alive.Middle * (1 - estimate.Stages[^1].Share)
        );
        var low = zoeae.Max(stage => (double?)stage.Number.Low) ?? 0;
        var high = Math.Min(zoeae.Sum(stage => stage.Number.High), estimate.All.Alive.High);
        var middle = Math.Clamp(
            estimate.All.Alive.Middle * (1 - estimate.Stages[^1].Share),
            low,
            Math.Max(low, high)
        );
        return new(
            settled,
            Scaled(Interval.FromPoints(low, middle, Math.Max(middle, high)), of),
            part.Now.Alive.High < 1 ? 0 : Math.Clamp(share, 0, 1)
        );
    }

    private static double Part(double own, double all) => all > 0 ? Math.Clamp(own / all, 0, 1) : 1;

    private static Interval Scaled(Interval of, double share) =>
        Interval.FromPoints(
            Math.Floor(of.Low * share),
            Math.Round(of.Middle * share),
            Math.Ceiling(Math.Round(of.High * share, 6))
        );
}
