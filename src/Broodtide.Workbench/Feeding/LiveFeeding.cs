using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Feeding;

/// <summary>Live food that larvae must be large enough for.</summary>
public enum LiveFoodKind
{
    /// <summary>Rotifers, 0.1 to 0.3 mm.</summary>
    Rotifers,

    /// <summary>Newly hatched brine shrimps, 0.43 to 0.49 mm.</summary>
    Artemia,
}

/// <summary>From which stage a live food is given, and how much.</summary>
/// <param name="Food">The food.</param>
/// <param name="FromStage">Number of the first zoeal stage.</param>
/// <param name="PerMillilitre">Animals a mL in the larval water, 5 and 95 % of what keepers and hatcheries give.</param>
public sealed record LiveFoodGate(LiveFoodKind Food, int FromStage, Interval PerMillilitre)
{
    /// <summary>
    /// The gates without a source for this species: rotifers from the second zoea at 1 to 5 a mL, brine shrimps from the
    /// fifth at 0.5 to 2. That <em>Caridina multidentata</em> does better with rotifers: Hamasaki and others 2020, abstract,
    /// without a stage; that many zoeae of <em>Caridina</em> are too small for brine shrimps at first is practice.
    /// <em>Macrobrachium</em> takes them from its second stage (Araujo and Valenti 2007), but hatches twice as large.
    /// </summary>
    public static IReadOnlyList<LiveFoodGate> Usual { get; } =
    [
        new(LiveFoodKind.Rotifers, 2, Interval.FromPoints(1, 2.5, 5)),
        new(LiveFoodKind.Artemia, 5, Interval.FromPoints(0.5, 1, 2)),
    ];
}

/// <summary>What live food is wanted for.</summary>
public sealed record LiveFeedingOrder
{
    /// <summary>Water of the larvae.</summary>
    public required Volume Vessel { get; init; }

    /// <summary>The food.</summary>
    public required LiveFoodKind Food { get; init; }

    /// <summary>The species.</summary>
    public required SpeciesProfile Profile { get; init; }

    /// <summary>Number of the zoeal stage that most larvae are in; none for a table of all.</summary>
    public int? Stage { get; init; }

    /// <summary>Day of hatching; none where no dates are wanted.</summary>
    public LocalDate? Hatched { get; init; }

    /// <summary>The first stage that takes it, by the keeper's own eyes; the usual if left out.</summary>
    public int? FromStage { get; init; }

    /// <summary>Rotifers a mL of the keeper's rotifer culture.</summary>
    public double RotiferCulturePerMillilitre { get; init; } = 150;
}

/// <summary>One stage of a schedule.</summary>
/// <param name="Stage">Number of the zoeal stage.</param>
/// <param name="From">First day that it may begin; none without a day of hatching.</param>
/// <param name="To">Last day that it may end; none without a day of hatching.</param>
/// <param name="Given">Whether the food is given.</param>
public sealed record LiveFeedingStage(int Stage, LocalDate? From, LocalDate? To, bool Given);

/// <summary>Live food a day, and what it takes.</summary>
/// <param name="Gate">From which stage, how much.</param>
/// <param name="Stages">Each stage.</param>
/// <param name="AnimalsPerDay">Animals to put in a day.</param>
/// <param name="CystsPerDay">Brine shrimp cysts to set a day before; none for rotifers.</param>
/// <param name="HatcheryAtLeast">Smallest vessel that hatches them well; none for rotifers.</param>
/// <param name="Culture">Standing rotifer culture that gives them; none for brine shrimps.</param>
/// <param name="YeastPerDay">Fresh yeast a day for that culture, if it lives on yeast; none for brine shrimps.</param>
/// <param name="Remarks">What to mind.</param>
public sealed record LiveFeeding(
    LiveFoodGate Gate,
    IReadOnlyList<LiveFeedingStage> Stages,
    Interval AnimalsPerDay,
    Mass? CystsPerDay,
    Volume? HatcheryAtLeast,
    Volume? Culture,
    Mass? YeastPerDay,
    IReadOnlyList<Remark> Remarks
)
{
    // Share of a rotifer culture taken a day: growth is at most 0.61 to 0.79 a day (Hotos 2003, abstract); half of that
    // lasts. Practice.
    private const double RotiferShare = 0.25;

    // Fresh yeast a day for a million rotifers, from memory.
    private const double YeastGramsPerMillion = 1;

    // Nauplii a gram of cysts, the lower end (Treece 2000), and the share that is gathered (practice).
    private const double NaupliiPerGram = 200_000;
    private static readonly Probability Gathered = Probability.FromFraction(0.8);

    /// <summary>A schedule, or why the food is not given yet.</summary>
    public static FeedingAnswer<LiveFeeding> Plan(LiveFeedingOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var gate = LiveFoodGate.Usual.Single(usual => usual.Food == order.Food);
        if (order.FromStage is { } own)
        {
            gate = gate with { FromStage = own };
        }

        var stages = (int)(order.Profile.Find("zoea-stages")?.Current.Value ?? 9);
        if (order.Stage is { } stage)
        {
            if (stage < 1 || stage > stages)
            {
                return FeedingAnswer<LiveFeeding>.No(
                    "live-food-no-such-stage",
                    new("stage", stage),
                    new("stages", stages)
                );
            }

            if (stage < gate.FromStage)
            {
                return FeedingAnswer<LiveFeeding>.No(
                    order.Food is LiveFoodKind.Artemia
                        ? "live-food-artemia-too-large"
                        : "live-food-too-early",
                    new("stage", stage),
                    new("fromStage", gate.FromStage)
                );
            }
        }

        if (order.Vessel.Litres is not (>= 0.01 and <= 1000) || !(order.RotiferCulturePerMillilitre >= 1))
        {
            return FeedingAnswer<LiveFeeding>.No(
                "live-food-vessel",
                new Argument("volumeLitres", order.Vessel.Litres)
            );
        }

        var animals = gate.PerMillilitre.Scaled(order.Vessel.Millilitres);
        var isArtemia = order.Food is LiveFoodKind.Artemia;
        Mass? cysts = isArtemia
            ? LiveFeed.Cysts(order.Vessel, gate.PerMillilitre.Middle, NaupliiPerGram, Gathered)
            : null;
        Volume? culture = isArtemia
            ? null
            : Volume.FromMillilitres(animals.Middle / (order.RotiferCulturePerMillilitre * RotiferShare));
        return new FeedingAnswer<LiveFeeding>.Found(
            new(
                gate,
                [.. Enumerable.Range(1, stages).Select(number => StageOf(order, gate, number, stages))],
                animals,
                cysts,
                cysts is { } mass ? Hatchery(mass) : null,
                culture,
                culture is { } held
                    ? Mass.FromGrams(
                        held.Millilitres * order.RotiferCulturePerMillilitre / 1e6 * YeastGramsPerMillion
                    )
                    : null,
                [.. RemarksOf(order)]
            )
        );
    }

    private static LiveFeedingStage StageOf(LiveFeedingOrder order, LiveFoodGate gate, int number, int stages)
    {
        // No duration of a single stage is known: the whole is parted evenly, wide at both ends.
        LocalDate? Day(double days) => order.Hatched?.PlusDays((int)Math.Floor(days));
        return new(
            number,
            Day(order.Profile.LarvalDaysLow * (number - 1) / stages),
            Day(order.Profile.LarvalDaysHigh * number / stages),
            number >= gate.FromStage
        );
    }

    private static Volume Hatchery(Mass cysts) =>
        Volume.FromLitres(
            Math.Max(0.5, cysts.Grams / LiveFeed.DensestCysts(Volume.FromLitres(1)).GramsPerLitre)
        );

    private static IEnumerable<Remark> RemarksOf(LiveFeedingOrder order)
    {
        yield return new Remark("live-food-stage-is-practice");
        if (order.Hatched is not null)
        {
            yield return new Remark("live-food-days-are-even-parts");
        }

        if (order.Food is LiveFoodKind.Artemia)
        {
            yield return new Remark("artemia-hatching");
            yield return new Remark("artemia-fresh-or-cold");
            yield return new Remark("artemia-no-shells");
        }
        else
        {
            yield return new Remark("rotifers-on-algae-not-yeast");
            yield return new Remark("rotifers-rinse");
        }

        yield return new Remark("live-food-look-before-adding");
    }
}
