using Broodtide.Science.Food;
using Broodtide.Units;

namespace Broodtide.Workbench.Feeding;

/// <summary>One substance of a recipe.</summary>
/// <param name="Substance">The substance and its strength in the medium.</param>
/// <param name="Mass">In all of the medium.</param>
/// <param name="StockGramsPerLitre">Strength of the stock solution, g/L.</param>
public sealed record MediumLine(MediumSubstance Substance, Mass Mass, double StockGramsPerLitre);

/// <summary>One stock solution of a recipe.</summary>
/// <param name="Stock">Which.</param>
/// <param name="Volume">What of it goes into all of the medium.</param>
public sealed record MediumPour(MediumStock Stock, Volume Volume);

/// <summary>A medium for a volume of sea water.</summary>
/// <param name="Medium">The medium.</param>
/// <param name="Water">Sea water.</param>
/// <param name="Lines">Each substance.</param>
/// <param name="Pours">Each stock solution, in the order of pouring.</param>
/// <param name="Nitrogen">Nitrogen of the nitrate, as N.</param>
/// <param name="Remarks">What to mind.</param>
public sealed record MediumRecipe(
    CultureMedia Medium,
    Volume Water,
    IReadOnlyList<MediumLine> Lines,
    IReadOnlyList<MediumPour> Pours,
    Concentration Nitrogen,
    IReadOnlyList<Remark> Remarks
)
{
    // Stocks are made a thousand times as strong, those of vitamins two thousand times, as Guillard's are.
    private const double Times = 1000;
    private const double TimesVitamins = 2000;

    private const double LeastLitres = 0.01;
    private const double MostLitres = 1000;

    /// <summary>The recipe for a volume, or why there is none.</summary>
    /// <param name="medium">The medium.</param>
    /// <param name="water">Sea water, from 10 mL to 1000 L.</param>
    /// <param name="alga">What it is for, if that is known.</param>
    public static FeedingAnswer<MediumRecipe> Of(CultureMedia medium, Volume water, AlgaKind? alga = null)
    {
        ArgumentNullException.ThrowIfNull(medium);
        if (water.Litres is not (>= LeastLitres and <= MostLitres))
        {
            return FeedingAnswer<MediumRecipe>.No(
                "medium-volume",
                new("volumeLitres", water.Litres),
                new("leastLitres", LeastLitres),
                new("mostLitres", MostLitres)
            );
        }

        return new FeedingAnswer<MediumRecipe>.Found(
            new(
                medium,
                water,
                [
                    .. medium.Substances.Select(substance => new MediumLine(
                        substance,
                        Mass.FromMilligrams(substance.Dissolved.MilligramsPerLitre * water.Litres),
                        substance.Dissolved.GramsPerLitre * Strength(substance.Stock)
                    )),
                ],
                [
                    .. medium
                        .Substances.Select(substance => substance.Stock)
                        .Distinct()
                        .OrderBy(stock => stock is MediumStock.Silicate)
                        .ThenBy(stock => stock)
                        .Select(stock => new MediumPour(stock, 1 / Strength(stock) * water)),
                ],
                medium.Nitrogen,
                [.. RemarksOf(medium, alga)]
            )
        );
    }

    private static double Strength(MediumStock stock) =>
        stock is MediumStock.Vitamins ? TimesVitamins : Times;

    private static IEnumerable<Remark> RemarksOf(CultureMedia medium, AlgaKind? alga)
    {
        var silicate = medium.Substances.Any(substance => substance.Stock is MediumStock.Silicate);
        if (alga is { IsDiatom: false } && silicate)
        {
            yield return new Remark("medium-leave-silicate-out");
        }
        else if (alga is { IsDiatom: true } && !silicate)
        {
            yield return new Remark("medium-diatoms-need-silicate");
        }

        if (medium.FromMemory)
        {
            yield return new Remark("medium-from-memory");
        }

        yield return new Remark("medium-stocks-not-grains");
        if (silicate)
        {
            yield return new Remark("medium-silicate-last");
        }

        yield return new Remark("medium-vitamins-cool");
        yield return new Remark("medium-not-into-larvae");
        yield return new Remark("medium-chemicals-care");
    }
}
