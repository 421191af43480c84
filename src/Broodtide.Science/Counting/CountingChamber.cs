using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>
/// A counting chamber by its geometry. Makers differ, and a chamber has its own depth: what is engraved on it, or what a
/// weighing of ten fillings gave, goes before these.
/// </summary>
/// <param name="Code">Name of the chamber and the part counted, lower-case words joined by hyphens.</param>
/// <param name="SquareMillimetres">Area of one square, mm2.</param>
/// <param name="DepthMillimetres">Depth of the water, mm.</param>
/// <param name="Squares">How many squares the ruling has.</param>
/// <param name="BestFrom">Fewest cells in the chamber that count well, none where no figure is known.</param>
/// <param name="BestTo">Most cells in the chamber that count well, none where no figure is known.</param>
public sealed record CountingChamber(
    string Code,
    double SquareMillimetres,
    double DepthMillimetres,
    int Squares,
    CellDensity? BestFrom,
    CellDensity? BestTo
)
{
    // The best range at the time of counting: PLoS ONE 2015, PMC4546242, table 2. A haemocytometer above and a
    // Sedgewick-Rafter below 1e4 cells/mL: CSIRO method sheets on counting microalgae.
    private static readonly CellDensity Haemocytometer = CellDensity.FromPerMillilitre(2e5);
    private static readonly CellDensity HaemocytometerTop = CellDensity.FromPerMillilitre(6e5);
    private static readonly CellDensity Ruled = CellDensity.FromPerMillilitre(1e4);

    /// <summary>
    /// The chambers that are known here: improved Neubauer by its nine large squares or by the 25 squares of its centre,
    /// Fuchs-Rosenthal, Sedgewick-Rafter by its squares of 1 mm (chamber geometry as in the CSIRO method sheets).
    /// </summary>
    public static ImmutableArray<CountingChamber> All { get; } =
    [
        new("neubauer", 1, 0.1, 9, Haemocytometer, HaemocytometerTop),
        new("neubauer-middle", 0.04, 0.1, 25, Haemocytometer, HaemocytometerTop),
        new("fuchs-rosenthal", 1, 0.2, 16, Haemocytometer, HaemocytometerTop),
        new("sedgewick-rafter", 1, 1, 1000, null, Ruled),
    ];

    /// <summary>
    /// The chamber of a code, in any case of letters; none if it is not known. The Neubauer chamber meant here is the
    /// improved one, so both names lead to it.
    /// </summary>
    public static CountingChamber? Find(string code)
    {
        var known = code.StartsWith(Improved, StringComparison.OrdinalIgnoreCase)
            ? code[Improved.Length..]
            : code;
        return All.FirstOrDefault(chamber =>
            string.Equals(chamber.Code, known, StringComparison.OrdinalIgnoreCase)
            && (known == code || known.StartsWith("neubauer", StringComparison.OrdinalIgnoreCase))
        );
    }

    private const string Improved = "improved-";

    /// <summary>So many of its squares.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Less than one.</exception>
    public ChamberPart Part(int squares) => new(squares, SquareMillimetres, DepthMillimetres);
}
