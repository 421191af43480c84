using Broodtide.Science.Counting;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Chambers;

/// <summary>How a chamber is counted.</summary>
/// <param name="Chamber">The chamber.</param>
/// <param name="Squares">How many squares to count; all that are whole if left out.</param>
/// <param name="Dilution">How many times the sample was thinned, fixative included, 1 or more.</param>
/// <param name="ErrorShare">Standard deviation of chamber and dilution together as a share, 0 to 1 (practice: 0.05 to 0.1).</param>
public sealed record ChamberWay(
    CountingChamber Chamber,
    int? Squares = null,
    double Dilution = 1,
    double ErrorShare = 0.1
);

/// <summary>What the cells in a chamber's picture say of the culture.</summary>
/// <param name="PerMillilitre">Cells per mL of the culture: 5, 50 and 95 %.</param>
/// <param name="Density">The same by the counts alone, without what a picture misses.</param>
/// <param name="Counted">The squares that were counted.</param>
/// <param name="SquareMicrolitres">Volume over one of them, microlitres.</param>
/// <param name="MicrometresPerPixel">Scale of the picture by its ruling.</param>
/// <param name="Remarks">What else there is to know, as codes.</param>
public sealed record ChamberTold(
    Interval PerMillilitre,
    ChamberDensity Density,
    IReadOnlyList<ChamberSquare> Counted,
    double SquareMicrolitres,
    double MicrometresPerPixel,
    IReadOnlyList<Remark> Remarks
);

/// <summary>From the cells in the squares of a picture to cells per millilitre.</summary>
public static class ChamberTally
{
    /// <summary>
    /// Standard deviation, as a share, of what a picture misses or takes for a cell, besides chance: from invented pictures
    /// (docs/science/looking.md).
    /// </summary>
    public const double OfPicture = 0.05;

    private static readonly Probability Level = Probability.FromFraction(0.9);

    /// <summary>Counts.</summary>
    /// <param name="picture">The picture, read.</param>
    /// <param name="cells">Its cells, as found or as a keeper has put them right.</param>
    /// <param name="way">How it is counted.</param>
    /// <returns>What it says; or none where no ruled square lies whole in the picture: no-whole-square.</returns>
    /// <exception cref="ArgumentException">No ruling is known of the chamber.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static Parsed<ChamberTold> Of(
        ChamberPicture picture,
        IReadOnlyList<ChamberCell> cells,
        ChamberWay way
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(way.Squares ?? 1, nameof(way));
        var ruling = ChamberRuling.Of(way.Chamber);
        var remarks = new List<Remark>();
        var (steps, squares) = (ruling.StepsPerSquare, picture.Squares(ruling.StepsPerSquare, cells));
        if (squares.Count == 0 && steps > 1)
        {
            (steps, squares) = (1, picture.Squares(1, cells));
            remarks.Add(new("counted-by-small-squares"));
        }

        if (squares.Count == 0)
        {
            return Parsed<ChamberTold>.No("no-whole-square");
        }

        if (way.Squares > squares.Count)
        {
            remarks.Add(
                new(
                    "fewer-squares-than-asked",
                    new Argument("whole", squares.Count),
                    new Argument("asked", way.Squares)
                )
            );
        }

        var chosen = Chosen(squares, way.Squares ?? squares.Count);
        var side = steps * ruling.StepMillimetres;
        var chamber = way.Chamber with { SquareMillimetres = side * side };
        var counts = chosen.Select(square => square.Cells).ToList();
        var both = Math.Sqrt(Math.Pow(way.ErrorShare, 2) + (OfPicture * OfPicture));
        var density = ChamberDensity.Of(counts, chamber, way.Dilution, both, Level);
        remarks.AddRange(Said(picture, density, way.Chamber));
        return Parsed<ChamberTold>.Of(
            new(
                Interval.FromPoints(density.InAll.Lower, density.Estimate.PerMillilitre, density.InAll.Upper),
                density,
                chosen,
                chamber.Part(1).Microlitres,
                ruling.StepMillimetres * 1_000 / picture.StepPixels,
                remarks
            )
        );
    }

    // As far apart as can be, in the order of reading.
    private static IReadOnlyList<ChamberSquare> Chosen(IReadOnlyList<ChamberSquare> squares, int wanted) =>
        wanted >= squares.Count ? squares
        : wanted == 1 ? [squares[squares.Count / 2]]
        :
        [
            .. Enumerable
                .Range(0, wanted)
                .Select(k => squares[(int)Math.Round(k * (squares.Count - 1.0) / (wanted - 1))]),
        ];

    private static IEnumerable<Remark> Said(
        ChamberPicture picture,
        ChamberDensity density,
        CountingChamber chamber
    )
    {
        yield return new("chamber-check-squares");
        if (density.Spread is { } spread && spread.ClumpedChance.Value < 0.01)
        {
            yield return new("squares-differ-more-than-chance");
        }

        if (picture.TooLarge > 0)
        {
            yield return new("large-things-left-out", new Argument("number", picture.TooLarge));
        }

        if (chamber.BestTo is { } most && density.InChamber.PerMillilitre > most.PerMillilitre)
        {
            yield return new("chamber-too-dense", new Argument("mostPerMillilitre", most.PerMillilitre));
        }

        if (density.Seen < 100)
        {
            yield return new("few-cells-counted", new Argument("seen", density.Seen));
        }
    }
}
