using Broodtide.Science.Food;
using Broodtide.Science.Waste;
using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Feeding;

/// <summary>Yeast or powder for a vessel.</summary>
public sealed record RationOrder
{
    /// <summary>The vessel's water.</summary>
    public required WaterBody Vessel { get; init; }

    /// <summary>What kind of food.</summary>
    public required DryFoodKind Kind { get; init; }

    /// <summary>What is in it; the usual for its kind if left out.</summary>
    public DryFood? Food { get; init; }

    /// <summary>What is meant to be given a day, as sold; none to be told the most.</summary>
    public Mass? Given { get; init; }

    /// <summary>Whether air runs in the vessel day and night.</summary>
    public bool Aerated { get; init; }
}

/// <summary>A ration a day and what it does where nobody eats it.</summary>
/// <param name="Given">Food a day, as sold.</param>
/// <param name="Most">The most a day, as sold, by the rule for this vessel.</param>
/// <param name="Dry">Dry mass a litre and day.</param>
/// <param name="OxygenDemand">Oxygen that its decay takes, a litre and day, without that of its nitrogen.</param>
/// <param name="OxygenShare">The same as a share of all oxygen that the water holds at saturation; none outside the formula.</param>
/// <param name="NitrogenMilligramsPerLitre">Nitrogen in it, mg/L a day.</param>
/// <param name="TanAfterTenDays">TAN after ten such days in clear water that is never changed, mg/L as N.</param>
/// <param name="LikeAlga">Cells of Tetraselmis with the same dry mass.</param>
/// <param name="Remarks">What to mind.</param>
public sealed record Ration(
    Mass Given,
    Mass Most,
    Concentration Dry,
    Concentration OxygenDemand,
    double? OxygenShare,
    Interval NitrogenMilligramsPerLitre,
    Interval TanAfterTenDays,
    CellDensity LikeAlga,
    IReadOnlyList<Remark> Remarks
)
{
    /// <summary>Dry mg/L and day from which still water is warned of. Practice, from the oxygen that decay takes.</summary>
    public const double StillWarning = 2;

    /// <summary>Dry mg/L and day above which still water is refused: decay could take all its oxygen overnight.</summary>
    public const double StillMost = 5;

    /// <summary>Dry mg/L and day from which aerated water is warned of. Practice, no source.</summary>
    public const double AeratedWarning = 5;

    /// <summary>Dry mg/L and day above which aerated water is refused: over 6 mg/L of TAN after ten days (docs/science/food.md).</summary>
    public const double AeratedMost = 20;

    private const int Days = 10;
    private const double NitrogenOfProtein = 0.16;

    // Ash of yeast and powder as a share of dry mass. Practice, no source.
    private const double AshShare = 0.08;

    // CH1.8O0.5N0.2, the usual formula of microbial matter.
    private static readonly ElementalFormula Matter = new(1, 1.8, 0.5, 0.2);

    /// <summary>A ration, or why it is refused.</summary>
    public static FeedingAnswer<Ration> Plan(RationOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        if (Wishes.Of(order.Vessel) is { } no)
        {
            return FeedingAnswer<Ration>.No(
                "ration-water-outside",
                new("given", no.Given),
                new("nearest", no.Nearest ?? 0)
            );
        }

        var food = order.Food ?? DryFood.Usual(order.Kind);
        if (food.Dry.Value <= 0)
        {
            return FeedingAnswer<Ration>.No("ration-food-is-water");
        }

        var litres = order.Vessel.Volume.Litres;
        var (warning, most) = order.Aerated ? (AeratedWarning, AeratedMost) : (StillWarning, StillMost);
        var mostMass = AsSold(most, food, litres);
        // Not told how much: no more than what needs no warning.
        var given = order.Given ?? AsSold(warning, food, litres);
        var dry = given.Milligrams * food.Dry.Value / litres;
        if (dry > most * (1 + 1e-9))
        {
            return FeedingAnswer<Ration>.No(
                order.Aerated ? "ration-fouls-with-air" : "ration-uses-the-oxygen",
                new("dryMilligramsPerLitre", dry),
                new("mostMilligramsPerLitre", most),
                new("mostGrams", mostMass.Grams)
            );
        }

        var demand = dry * (1 - AshShare) * Matter.OxygenDemand(nitrified: false);
        var saturation = OxygenSaturation.At(order.Vessel.Salinity, order.Vessel.Temperature);
        var nitrogen = food.Protein.Scaled(NitrogenOfProtein * Math.Max(given.Milligrams, 1e-12) / litres);
        return new FeedingAnswer<Ration>.Found(
            new(
                given,
                mostMass,
                Concentration.FromMilligramsPerLitre(dry),
                Concentration.FromMilligramsPerLitre(demand),
                saturation.OrNone is { MilligramsPerLitre: > 0 } full
                    ? demand / full.MilligramsPerLitre
                    : null,
                nitrogen,
                Interval.FromPoints(Tan(nitrogen.Low), Tan(nitrogen.Middle), Tan(nitrogen.High)),
                DryMass.Cells(
                    Concentration.FromMilligramsPerLitre(dry),
                    AlgaKind.Find("tetraselmis")!.DryPicogramsPerCell
                ),
                [.. RemarksOf(order, food, dry, warning)]
            )
        );
    }

    private static Mass AsSold(double dryMilligramsPerLitre, DryFood food, double litres) =>
        Mass.FromMilligrams(dryMilligramsPerLitre * litres / food.Dry.Value);

    // Clear water, no filter, no change: what the simple container says.
    private static double Tan(double nitrogenPerDay) =>
        SimpleContainer
            .After(
                new(0, 0, 0, 0),
                new SimpleContainerSettings { ExcretionPerDay = 0, FeedPerDay = nitrogenPerDay },
                Days,
                stepsPerDay: 24
            )
            .Tan;

    private static IEnumerable<Remark> RemarksOf(RationOrder order, DryFood food, double dry, double warning)
    {
        if (dry > warning * (1 + 1e-9))
        {
            yield return new Remark(
                order.Aerated ? "ration-much-with-air" : "ration-much-without-air",
                new("dryMilligramsPerLitre", dry),
                new("fromMilligramsPerLitre", warning)
            );
        }

        if (order.Kind is DryFoodKind.FreshYeast or DryFoodKind.DryYeast)
        {
            yield return new Remark("ration-yeast-poor-food");
        }

        if (food.IsUsual)
        {
            yield return new Remark("ration-composition-assumed");
        }

        yield return new Remark("ration-in-portions");
        yield return new Remark("ration-nothing-while-cloudy");
    }
}
