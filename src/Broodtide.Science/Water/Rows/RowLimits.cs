using Broodtide.Units;

namespace Broodtide.Science.Water.Rows;

/// <summary>What a row may hold, as the types of one number demand it, and the shapes of spans.</summary>
internal static class RowLimits
{
    /// <summary>t68 = 1.00024 t90; see <see cref="Temperature.CelsiusIpts68"/>.</summary>
    internal const double Ipts68PerIts90 = 1.00024;

    internal const double LowestCelsius = Temperature.AbsoluteZeroCelsius;
    internal const double HighestCelsius = Temperature.HighestCelsius;

    /// <summary>Whether a row may be handed to the plain formulas.</summary>
    internal static bool Holds(double first, double celsius, double decibar) =>
        first >= 0
        && first <= double.MaxValue
        && celsius >= LowestCelsius
        && celsius <= HighestCelsius
        && decibar >= 0
        && decibar <= Pss78.HighestDecibar;

    /// <summary>Checks that all columns are as long as the result, and that none lies across it.</summary>
    /// <exception cref="ArgumentException">They are not, or one does.</exception>
    internal static void Check(
        ReadOnlySpan<double> first,
        ReadOnlySpan<double> celsius,
        ReadOnlySpan<double> decibar,
        Span<double> result
    )
    {
        if (
            first.Length != result.Length
            || celsius.Length != result.Length
            || (decibar.Length != 0 && decibar.Length != result.Length)
        )
        {
            throw new ArgumentException(
                $"All columns must be as long as the result, {result.Length} rows: there are {first.Length}, {celsius.Length} temperatures and {decibar.Length} pressures (none for the surface).",
                nameof(result)
            );
        }

        if (Across(first, result) || Across(celsius, result) || Across(decibar, result))
        {
            throw new ArgumentException(
                "The result may be one of the columns, or apart from all; it must not lie across one.",
                nameof(result)
            );
        }
    }

    private static bool Across(ReadOnlySpan<double> column, Span<double> result) =>
        column.Overlaps(result, out var offset) && offset != 0;
}
