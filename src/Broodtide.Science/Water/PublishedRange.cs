namespace Broodtide.Science.Water;

/// <summary>Whether an input lies in the range a source gives.</summary>
internal static class PublishedRange
{
    // Numbers that went through a change of scale or a search may miss the edge by rounding.
    private const double Hair = 1e-9;

    /// <summary>Whether the value lies in the closed range, both ends taken with a hair of room.</summary>
    public static bool Holds(double value, double lowest, double highest) =>
        value >= lowest - Hair && value <= highest + Hair;
}
