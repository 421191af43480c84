using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// How well a keeper weighs and measures, as standard deviations. The defaults are practice, no source: a kitchen
/// scale, a kitchen jug, a hand instrument.
/// </summary>
public sealed record MeasuringErrors
{
    /// <summary>Error of a weighing that does not grow with the weight, grams.</summary>
    public double WeighingSdGrams { get; init; } = 1;

    /// <summary>Error of a weighing as a share of the weight.</summary>
    public double WeighingSdShare { get; init; } = 0.005;

    /// <summary>Error of a volume as a share of it.</summary>
    public double VolumeSdShare { get; init; } = 0.02;

    /// <summary>Doubt in the salinity of water at hand, practical salinity.</summary>
    public double SalinitySd { get; init; } = 0.5;

    /// <summary>Relative error of a weighed mass, as a share.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An error is not finite or negative.</exception>
    internal double ShareOf(Mass weighed) =>
        weighed.Grams > 0
            ? Root.OfSquares(
                Finite.NotNegative(WeighingSdGrams) / weighed.Grams,
                Finite.NotNegative(WeighingSdShare)
            )
            : 0;
}

/// <summary>Independent errors add up as squares.</summary>
internal static class Root
{
    public static double OfSquares(params ReadOnlySpan<double> errors)
    {
        var sum = 0.0;
        foreach (var error in errors)
        {
            sum += error * error;
        }

        return Math.Sqrt(sum);
    }
}
