using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;

namespace Broodtide.Workbench.Planning;

/// <summary>How long a food takes, and from when and by when it is started.</summary>
/// <param name="Days">Days from its start until it can be used.</param>
/// <param name="FromDays">Begun so many days before the first larvae, a second start is still in time.</param>
/// <param name="ByDays">Begun so many days before, it is in time in nineteen of twenty cases, or a film as likely as not.</param>
internal sealed record FoodLead(Interval Days, int FromDays, int ByDays);

/// <summary>The leads of film and green water, from what is known of their growth.</summary>
internal sealed record FoodLeads(FoodLead Film, FoodLead Green)
{
    // A culture that crashes is seen after a week, and begun again. Practice, no source.
    private const int SecondStartDays = 14;
    private const int LeastDays = 7;
    private const int MostDays = 60;

    // Starter as it is sold or given away. Practice, no source.
    private static readonly Volume Starter = Volume.FromMillilitres(100);

    // Where no plan can be made of what is wished: two to five weeks as keepers say.
    private static readonly Interval Usual = Interval.FromPoints(14, 21, 35);

    /// <summary>The leads for a plan.</summary>
    public static FoodLeads Of(PlanScene scene) =>
        new(OfFilm(), OfGreen(scene.LarvalWater().Water, scene.Profile.LarvaePerLitre, scene));

    private static FoodLead OfFilm()
    {
        var prior = CulturePrior.OfFilm();
        double Days(double rate) =>
            AlgalGrowth.DaysToReach(
                CellDensity.FromPerMillilitre(prior.Start.Middle),
                CellDensity.FromPerMillilitre(prior.Capacity.Middle),
                CellDensity.FromPerMillilitre(CultureKnown.FilmReady),
                rate
            );

        var days = Interval.FromPoints(Days(prior.Rate.High), Days(prior.Rate.Middle), Days(prior.Rate.Low));
        // A thin film feeds too, so the middle is in time; begun earlier it is thick.
        return new(days, Held(days.High), Held(days.Middle));
    }

    private static FoodLead OfGreen(Volume water, double larvaePerLitre, PlanScene scene)
    {
        var days = ScaleUp.Plan(
            new()
            {
                Alga = AlgaKind.Find("tetraselmis")!,
                LarvalWater = water,
                Target = CellDensity.FromPerMillilitre(
                    scene.Profile.Find("tetraselmis-cells") is { } cells
                        ? cells.Low ?? cells.Value ?? PlanAmounts.UsualTargetCells
                        : PlanAmounts.UsualTargetCells
                ),
                LarvaePerLitre = Math.Clamp(larvaePerLitre, 0, 1000),
                Starter = Starter,
                Harvest = scene.Wishes.Culture,
                StarterDensity = scene.Wishes.Culture,
            }
        )
            is FeedingAnswer<ScaleUp>.Found { Value: var plan }
            ? plan.Days
            : Usual;
        return new(days, Held(days.High + SecondStartDays), Held(days.High));
    }

    private static int Held(double days) => Math.Clamp((int)Math.Ceiling(days), LeastDays, MostDays);
}
