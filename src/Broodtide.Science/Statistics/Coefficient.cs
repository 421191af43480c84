namespace Broodtide.Science.Statistics;

/// <summary>One coefficient of a regression, on the scale of its link.</summary>
/// <param name="Name">Its name in the design.</param>
/// <param name="Estimate">The estimate.</param>
/// <param name="StandardError">Its standard error; none where the data say nothing about it.</param>
public sealed record Coefficient(string Name, double Estimate, double? StandardError);

/// <summary>Coefficients by name.</summary>
public static class Coefficients
{
    /// <summary>The coefficient of a name.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static Coefficient Named(this IReadOnlyList<Coefficient> coefficients, string name) =>
        coefficients.FirstOrDefault(coefficient =>
            string.Equals(coefficient.Name, name, StringComparison.Ordinal)
        ) ?? throw new ArgumentException($"There is no coefficient {name}.", nameof(name));

    /// <summary>Names, estimates and errors side by side.</summary>
    internal static IReadOnlyList<Coefficient> Of(
        IReadOnlyList<string> names,
        ReadOnlySpan<double> estimates,
        ReadOnlySpan<double?> errors
    )
    {
        var all = new Coefficient[names.Count];
        for (var i = 0; i < all.Length; i++)
        {
            all[i] = new(names[i], estimates[i], errors[i]);
        }

        return all;
    }
}
