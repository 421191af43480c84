namespace Broodtide.Workbench.Feeding;

/// <summary>Numbers in as many figures as a count knows.</summary>
internal static class CultureFigures
{
    /// <summary>About two figures: 1630000 becomes 1650000, 0.2318 becomes 0.23.</summary>
    public static double Few(double value)
    {
        if (!(value > 0) || !double.IsFinite(value))
        {
            return value;
        }

        var step = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        // Divided, not multiplied: a tenth has no exact double.
        return step >= 1
            ? Math.Round(value / (step / 2)) * (step / 2)
            : Math.Round(value / step) / (1 / step);
    }
}
