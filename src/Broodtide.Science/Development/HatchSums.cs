namespace Broodtide.Science.Development;

/// <summary>Running sums of the grid: the one place of the forecast that is written to.</summary>
internal sealed class HatchSums(HatchGrid grid, int spawnings)
{
    internal HatchGrid Grid { get; } = grid;

    internal double[] Posterior { get; } = new double[grid.Cells];

    internal double[] PriorMass { get; } = new double[grid.Cells];

    internal double[] BySpawning { get; } = new double[spawnings];

    internal double Strict { get; private set; }

    internal void Add(int cell, int spawning, double prior, double full, double strict)
    {
        PriorMass[cell] += prior;
        Posterior[cell] += full;
        BySpawning[spawning] += full;
        Strict += strict;
    }
}
