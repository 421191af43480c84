namespace Broodtide.Oracles.Populations;

/// <summary>What befalls a population in one step, in this order: thinned, added to, counted, taken from.</summary>
/// <param name="Survival">Chance of each to live through the step, 0 to 1.</param>
/// <param name="Added">Number added.</param>
/// <param name="Counts">Counts, one after the other.</param>
/// <param name="Removed">Number taken out; so many must have been there.</param>
public sealed record PopulationStep(double Survival, int Added, IReadOnlyList<CountSeen> Counts, int Removed);

/// <summary>A start and the steps after it.</summary>
/// <param name="Start">The number before the first step.</param>
/// <param name="Steps">The steps.</param>
/// <param name="Largest">Largest number thought of.</param>
/// <param name="LargestAtStart">Starts above it are thought impossible; the rest is not scaled up.</param>
public sealed record PopulationCourse(
    PopulationStart Start,
    IReadOnlyList<PopulationStep> Steps,
    int Largest,
    int? LargestAtStart = null
)
{
    internal double[] StartProbabilities()
    {
        var probabilities = Start.Probabilities(Largest);
        for (var n = (LargestAtStart ?? Largest) + 1; n <= Largest; n++)
        {
            probabilities[n] = 0;
        }

        return probabilities;
    }
}
