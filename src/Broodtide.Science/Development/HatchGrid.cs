namespace Broodtide.Science.Development;

/// <summary>Equal cells of days on which hatch probabilities are kept.</summary>
/// <param name="Start">Day at which the first cell begins.</param>
/// <param name="Step">Length of a cell, days.</param>
/// <param name="Cells">Number of cells.</param>
internal readonly record struct HatchGrid(double Start, double Step, int Cells)
{
    internal double Edge(int cell) => Start + (cell * Step);

    internal double Middle(int cell) => Start + ((cell + 0.5) * Step);
}
