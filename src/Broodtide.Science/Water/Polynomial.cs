namespace Broodtide.Science.Water;

/// <summary>Polynomials given by their coefficients from the constant upward, by Horner's rule.</summary>
internal static class Polynomial
{
    /// <summary>The value at <paramref name="x"/>.</summary>
    public static double At(double x, ReadOnlySpan<double> coefficients)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }

    /// <summary>The first derivative at <paramref name="x"/>.</summary>
    public static double SlopeAt(double x, ReadOnlySpan<double> coefficients)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 1; i--)
        {
            sum = (sum * x) + (i * coefficients[i]);
        }

        return sum;
    }
}
