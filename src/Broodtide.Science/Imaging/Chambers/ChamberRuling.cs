using System.Collections.Immutable;
using Broodtide.Science.Counting;

namespace Broodtide.Science.Imaging.Chambers;

/// <summary>
/// How the squares of a counting chamber are ruled: each square is parted into steps by lines at even distances. Makers
/// differ; what is engraved goes before these.
/// </summary>
/// <param name="Chamber">Code of the <see cref="CountingChamber"/>.</param>
/// <param name="StepMillimetres">From line to line, mm.</param>
/// <param name="StepsPerSquare">Steps along a side of a square.</param>
public sealed record ChamberRuling(string Chamber, double StepMillimetres, int StepsPerSquare)
{
    /// <summary>
    /// Improved Neubauer, its corner squares of 1 mm in sixteen and the 25 squares of the middle in sixteen: sellers' sheets
    /// (Zählkammer nach Neubauer, cls-med.de 21642; lo-laboroptik.de, Zählkammern), where the middle one of three border
    /// lines bounds. Fuchs-Rosenthal, squares of 1 mm in sixteen, and Sedgewick-Rafter, squares of 1 mm: from memory.
    /// </summary>
    public static ImmutableArray<ChamberRuling> All { get; } =
    [
        new("neubauer", 0.25, 4),
        new("neubauer-middle", 0.05, 4),
        new("fuchs-rosenthal", 0.25, 4),
        new("sedgewick-rafter", 1, 1),
    ];

    /// <summary>The ruling of a chamber.</summary>
    /// <exception cref="ArgumentException">There is none for its code.</exception>
    public static ChamberRuling Of(CountingChamber chamber) =>
        All.FirstOrDefault(ruling => string.Equals(ruling.Chamber, chamber.Code, StringComparison.Ordinal))
        ?? throw new ArgumentException($"No ruling is known of {chamber.Code}.", nameof(chamber));
}
