namespace Broodtide.Science.Development;

/// <summary>
/// Development summed along one course of temperature, in days at the reference temperature: at the edges and in
/// the middles of the cells of a grid.
/// </summary>
internal sealed class Development
{
    private readonly HatchGrid _grid;
    private readonly double[] _edges;

    private Development(HatchGrid grid, double[] edges)
    {
        _grid = grid;
        _edges = edges;
    }

    internal static Development Along(
        EmbryoPrior prior,
        double baseCelsius,
        TemperaturePath path,
        double error,
        HatchGrid grid
    )
    {
        // A base at or above the reference would make no sense of the requirement.
        var theBase = Math.Min(baseCelsius, prior.ReferenceTemperature.Celsius - 2);
        var atReference = prior.ReferenceTemperature.Celsius - theBase;
        var edges = new double[grid.Cells + 1];
        for (var i = 0; i < grid.Cells; i++)
        {
            var above = Math.Max(
                path.At(grid.Middle(i), error) - theBase,
                EmbryoPrior.SlowestCelsiusAboveBase
            );
            edges[i + 1] = edges[i] + (grid.Step * above / atReference);
        }

        return new(grid, edges);
    }

    /// <summary>Development in the middle of a cell.</summary>
    internal double Upto(int cell) => 0.5 * (_edges[cell] + _edges[cell + 1]);

    /// <summary>Development at a day, held beyond the ends of the grid.</summary>
    internal double Upto(double day)
    {
        var place = Math.Clamp((day - _grid.Start) / _grid.Step, 0, _grid.Cells);
        var index = Math.Min((int)place, _grid.Cells - 1);
        return _edges[index] + ((place - index) * (_edges[index + 1] - _edges[index]));
    }

    /// <summary>Rate in a cell, reference days a day.</summary>
    internal double Rate(int cell) => (_edges[cell + 1] - _edges[cell]) / _grid.Step;
}
