using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// The standard normal distribution function from a table with linear interpolation: within 2e-6 of the exact
/// value (step squared / 8 times the greatest slope of the density, 0.242), and several times faster.
/// </summary>
internal static class NormalTable
{
    private const double Reach = 8;
    private const int PerUnit = 128;

    // Each value and what it is lower than the next, side by side.
    private static readonly (double Value, double Rise)[] Values = Fill();

    /// <summary>P(Z below <paramref name="z"/>); 0 and 1 beyond eight standard deviations.</summary>
    internal static double Below(double z)
    {
        if (z <= -Reach)
        {
            return 0;
        }

        if (z >= Reach)
        {
            return 1;
        }

        var place = (z + Reach) * PerUnit;
        var index = double.ConvertToIntegerNative<int>(place);
        var (value, rise) = Values[index];
        return value + ((place - index) * rise);
    }

    private static (double Value, double Rise)[] Fill()
    {
        var values = new double[(int)(2 * Reach * PerUnit) + 2];
        for (var i = 0; i < values.Length; i++)
        {
            var z = ((double)i / PerUnit) - Reach;
            values[i] = 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2);
        }

        return [.. values.Zip(values.Skip(1), (value, next) => (value, next - value))];
    }
}
