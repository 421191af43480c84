namespace Broodtide.Checks;

/// <summary>One check: what to compute, from what, and what must come out.</summary>
/// <param name="Line">Line in its file, from 1.</param>
/// <param name="Quantity">Name of the quantity.</param>
/// <param name="Inputs">Its inputs.</param>
/// <param name="Expected">What must come out: one number, a list, or a single NaN for a refusal.</param>
/// <param name="Tolerance">Absolute, in the unit of what is expected.</param>
/// <param name="Source">Where the value comes from.</param>
public sealed record CheckRow(
    int Line,
    string Quantity,
    CheckInputs Inputs,
    IReadOnlyList<double> Expected,
    double Tolerance,
    string Source
)
{
    /// <summary>The group: the name up to the first dot.</summary>
    public string Group => Quantity.Split('.')[0];

    /// <summary>Whether the quantity must refuse these inputs.</summary>
    public bool ExpectsRefusal => Expected is [var only] && double.IsNaN(only);
}
