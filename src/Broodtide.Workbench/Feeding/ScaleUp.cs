using Broodtide.Science.Food;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Feeding;

/// <summary>Green water that shall stand ready for larvae on a day.</summary>
public sealed record ScaleUpOrder
{
    /// <summary>The alga.</summary>
    public required AlgaKind Alga { get; init; }

    /// <summary>Water of the larvae.</summary>
    public required Volume LarvalWater { get; init; }

    /// <summary>Cells wanted in it.</summary>
    public required CellDensity Target { get; init; }

    /// <summary>Larvae a litre, 0 or more.</summary>
    public double LarvaePerLitre { get; init; } = 20;

    /// <summary>Starter that is at hand.</summary>
    public required Volume Starter { get; init; }

    /// <summary>Cells of the starter; the usual harvest of the alga if left out.</summary>
    public CellDensity? StarterDensity { get; init; }

    /// <summary>Cells of the culture at harvest; the usual harvest of the alga if left out.</summary>
    public CellDensity? Harvest { get; init; }

    /// <summary>Share harvested a day; what lasts with slow growth if left out.</summary>
    public Probability? SharePerDay { get; init; }

    /// <summary>How many times a culture is thinned at each step, above 1.</summary>
    public double TimesPerStep { get; init; } = 5;
}

/// <summary>One step from a bottle to the next.</summary>
/// <param name="From">Culture before.</param>
/// <param name="To">Culture after medium was added.</param>
/// <param name="Days">Days until it is dense again.</param>
public sealed record ScaleUpStep(Volume From, Volume To, Interval Days);

/// <summary>The way from a starter to a culture that feeds the larvae.</summary>
/// <param name="CellsPerDay">Cells that the larval water loses a day and that must be given.</param>
/// <param name="FirstDose">Culture for the first dose into clear water.</param>
/// <param name="SharePerDay">Share of the culture harvested a day.</param>
/// <param name="Standing">Standing culture that gives them, for the high end of the need.</param>
/// <param name="Steps">The steps, smallest first.</param>
/// <param name="Days">Days from starter to standing culture.</param>
/// <param name="Remarks">What to mind.</param>
public sealed record ScaleUp(
    Interval CellsPerDay,
    Volume FirstDose,
    Probability SharePerDay,
    Volume Standing,
    IReadOnlyList<ScaleUpStep> Steps,
    Interval Days,
    IReadOnlyList<Remark> Remarks
)
{
    // Water cleared by a larva, mL a day: none was measured for an atyid; a wide practice range.
    private static readonly Interval Cleared = Interval.FromPoints(0.5, 2.2, 10);

    // Cells that settle or die a day. Practice, no source.
    private static readonly Interval Settled = Interval.FromPoints(0.05, 0.12, 0.3);

    // A culture put into new medium does not grow at once. Practice, no source.
    private const double LagDays = 1;

    private const double LookAhead = 60;
    private const int MostSteps = 8;
    private const double MostLitres = 1000;

    /// <summary>Latest day to start so that it is ready in nineteen of twenty cases.</summary>
    /// <param name="ready">The day it must be ready.</param>
    public LocalDate StartBy(LocalDate ready) => ready.PlusDays(-(int)Math.Ceiling(Days.High));

    /// <summary>The way, or why there is none.</summary>
    public static FeedingAnswer<ScaleUp> Plan(ScaleUpOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var harvest = order.Harvest ?? Usual(order.Alga);
        var starter = order.StarterDensity ?? harvest;
        if (
            (
                CellsLikely.OfCulture(harvest, order.Alga)
                ?? CellsLikely.OfCulture(starter, order.Alga)
                ?? CellsLikely.OfFood(order.Target)
            ) is
            { } asked
        )
        {
            return new FeedingAnswer<ScaleUp>.Refused(asked);
        }

        if (harvest <= order.Target || starter.PerMillilitre <= 0 || order.Starter.Litres <= 0)
        {
            return FeedingAnswer<ScaleUp>.No(
                "scale-up-too-thin",
                new("harvestPerMillilitre", harvest.PerMillilitre),
                new("targetPerMillilitre", order.Target.PerMillilitre)
            );
        }

        Finite.Within(order.TimesPerStep, 1.1, 100);
        var need = Need(order);
        var share = order.SharePerDay ?? Lasting(order.Alga, harvest);
        if (share.Value <= 0)
        {
            return FeedingAnswer<ScaleUp>.No("scale-up-no-harvest");
        }

        var daily = AlgalGrowth.StandingCulture(need.High, harvest, share);
        var first = FoodDose.Added(order.Target, default, order.LarvalWater, harvest);
        // The first dose is taken from the culture too, and a third of it stays.
        var standing = Volume.FromLitres(Math.Max(daily.Litres, first.Litres * 1.5));
        if (standing.Litres > MostLitres)
        {
            return FeedingAnswer<ScaleUp>.No(
                "scale-up-too-much",
                new("standingLitres", standing.Litres),
                new("mostLitres", MostLitres)
            );
        }

        if (StepsOf(order, harvest, starter, standing) is not { } steps)
        {
            return FeedingAnswer<ScaleUp>.No("scale-up-too-slow", new Argument("mostDays", LookAhead));
        }

        return new FeedingAnswer<ScaleUp>.Found(
            new(
                need,
                first,
                share,
                standing,
                steps,
                Interval.FromPoints(
                    steps.Sum(step => step.Days.Low),
                    steps.Sum(step => step.Days.Middle),
                    steps.Sum(step => step.Days.High)
                ),
                [
                    new Remark("scale-up-growth-from-memory"),
                    new Remark("scale-up-clearance-not-measured"),
                    new Remark("scale-up-keep-a-backup"),
                    new Remark("scale-up-watch-colour"),
                ]
            )
        );
    }

    private static CellDensity Usual(AlgaKind alga) =>
        CellDensity.FromPerMillilitre(
            Math.Sqrt(alga.HarvestFrom.PerMillilitre * alga.HarvestTo.PerMillilitre)
        );

    private static Interval Need(ScaleUpOrder order)
    {
        double Cells(double cleared, double settled) =>
            FoodDose.CellsPerDay(
                order.LarvalWater,
                order.Target,
                Probability.FromFraction(
                    1 - Math.Exp(-((Finite.NotNegative(order.LarvaePerLitre) * cleared / 1000) + settled))
                )
            );

        return Interval.FromPoints(
            Cells(Cleared.Low, Settled.Low),
            Cells(Cleared.Middle, Settled.Middle),
            Cells(Cleared.High, Settled.High)
        );
    }

    private static Probability Lasting(AlgaKind alga, CellDensity harvest)
    {
        var prior = CulturePrior.Of(alga);
        var capacity = CellDensity.FromPerMillilitre(
            Math.Max(prior.Capacity.Middle, 2 * harvest.PerMillilitre)
        );
        return AlgalGrowth.LastingShare(harvest, capacity, alga.SlowestPerDay, 1);
    }

    private static List<ScaleUpStep>? StepsOf(
        ScaleUpOrder order,
        CellDensity harvest,
        CellDensity starter,
        Volume standing
    )
    {
        var steps = new List<ScaleUpStep>();
        var (volume, density) = (order.Starter, starter.PerMillilitre);
        while (volume < standing && steps.Count < MostSteps)
        {
            var left = standing / volume;
            // Even steps, none larger than allowed.
            var count = Math.Max(1, Math.Ceiling(Math.Log(left) / Math.Log(order.TimesPerStep)));
            var next = Math.Min(left, Math.Pow(left, 1 / count)) * volume;
            if (DaysBack(order.Alga, harvest, density * (volume / next)) is not { } days)
            {
                return null;
            }

            steps.Add(new(volume, next, days));
            (volume, density) = (next, harvest.PerMillilitre);
        }

        if (steps.Count == 0)
        {
            // Volume enough: only the density may be wanting.
            return density >= harvest.PerMillilitre ? [new(volume, volume, Interval.Exactly(0))]
                : DaysBack(order.Alga, harvest, density) is { } days ? [new(volume, volume, days)]
                : null;
        }

        return volume >= standing ? steps : null;
    }

    // Closed form at the slow, the middle and the fast rate, the capacity at its middle.
    private static Interval? DaysBack(AlgaKind alga, CellDensity harvest, double start)
    {
        var prior = CulturePrior.Of(alga);
        var capacity = CellDensity.FromPerMillilitre(
            Math.Max(prior.Capacity.Middle, 2 * harvest.PerMillilitre)
        );
        double Days(double rate) =>
            start >= harvest.PerMillilitre
                ? LagDays
                : LagDays
                    + AlgalGrowth.DaysToReach(CellDensity.FromPerMillilitre(start), capacity, harvest, rate);

        var slow = Days(prior.Rate.Low);
        return slow <= LookAhead
            ? Interval.FromPoints(Days(prior.Rate.High), Days(prior.Rate.Middle), slow)
            : null;
    }
}
