namespace Broodtide.Oracles.Populations;

/// <summary>
/// The three courses whose exact answers stand in tests/reference/statistics-checks.csv (popfilter rows, cases A to C).
/// </summary>
public static class PopulationCases
{
    private const int Largest = 400;

    /// <summary>By letter.</summary>
    public static IReadOnlyDictionary<string, PopulationCourse> All { get; } =
        new SortedDictionary<string, PopulationCourse>(StringComparer.Ordinal)
        {
            ["A"] = new(
                new PopulationStart.Known(20),
                [
                    new(0.9, 0, [new CountSeen.Detected(9, 0.5)], 0),
                    new(0.9, 0, [new CountSeen.Detected(8, 0.5)], 0),
                    new(0.9, 10, [new CountSeen.Detected(12, 0.5)], 0),
                    new(0.9, 0, [new CountSeen.Detected(11, 0.5)], 0),
                ],
                Largest
            ),
            ["B"] = new(
                new PopulationStart.Scattered(50),
                [
                    new(0.95, 0, [new CountSeen.Detected(5, 0.1)], 0),
                    new(0.857375, 0, [], 0),
                    new(0.95, 20, [new CountSeen.Detected(6, 0.1)], 0),
                    new(0.9025, 0, [new CountSeen.Detected(4, 0.1), new CountSeen.Detected(7, 0.1)], 5),
                    new(0.95, 0, [new CountSeen.Exact(47)], 0),
                ],
                Largest
            ),
            ["C"] = new(
                new PopulationStart.Scattered(50),
                [
                    new(0.9, 0, [new CountSeen.Clumped(12, 0.2, 3)], 0),
                    new(0.8, 0, [new CountSeen.Clumped(6, 0.2, 3)], 0),
                    new(0.85, 0, [new CountSeen.Photographed(20, 16, 4)], 0),
                ],
                Largest
            ),
        };
}
