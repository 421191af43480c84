using Broodtide.Units;

namespace Broodtide.Workbench.Species;

/// <summary>
/// What is said where development is told for temperatures that nobody tried. A straight line of development stops at a
/// threshold that is worked out; animals stop living well before it, so the two are never taken for one (larvae of
/// <em>Caridina babaulti basrensis</em>: the line stops at 13 degC, none finished at 20 degC).
/// </summary>
internal static class TestedTemperatures
{
    // Further from the one temperature tried than this, the days to hatching rest on an assumed line alone. Practice.
    private const double FarCelsius = 3;

    /// <summary>What is said of larvae that lived outside what was tested.</summary>
    /// <param name="profile">The species.</param>
    /// <param name="lowestCelsius">Coldest that was written of their water.</param>
    /// <param name="highestCelsius">Warmest.</param>
    public static IEnumerable<Remark> OfLarvae(
        SpeciesProfile profile,
        double lowestCelsius,
        double highestCelsius
    )
    {
        var tested = profile.Find(QuantityCodes.LarvalTemperature)?.Original;
        if (tested?.Low is { } low && lowestCelsius < low)
        {
            yield return new Remark(
                "larvae-colder-than-tested",
                new("lowestCelsius", lowestCelsius),
                new("testedCelsius", low)
            );
        }

        if (tested?.High is { } high && highestCelsius > high)
        {
            yield return new Remark(
                "larvae-warmer-than-tested",
                new("highestCelsius", highestCelsius),
                new("testedCelsius", high)
            );
        }
    }

    /// <summary>What is said of eggs that were colder than the one temperature at which days to hatching were measured.</summary>
    /// <param name="lowestCelsius">Coldest that was read or assumed.</param>
    /// <param name="tested">The temperature tried.</param>
    public static IEnumerable<Remark> OfEggs(double lowestCelsius, Temperature tested)
    {
        if (lowestCelsius < tested.Celsius - FarCelsius)
        {
            yield return new Remark(
                "eggs-colder-than-tested",
                new("lowestCelsius", lowestCelsius),
                new("testedCelsius", tested.Celsius)
            );
        }
    }
}
