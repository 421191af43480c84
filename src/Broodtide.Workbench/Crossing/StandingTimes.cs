namespace Broodtide.Workbench.Crossing;

/// <summary>How long the cup stands after each pour.</summary>
internal static class StandingTimes
{
    /// <summary>
    /// Equal times; where that would keep the animals brackish beyond the limit, the brackish times are shortened
    /// to it and the others take up the rest.
    /// </summary>
    /// <param name="brackish">Whether the cup stands brackish after each pour.</param>
    /// <param name="minutes">Minutes to share out.</param>
    /// <param name="limitMinutes">Most minutes brackish.</param>
    /// <returns>Minutes after each pour, or null where all of them are brackish and too many.</returns>
    public static double[]? Share(IReadOnlyList<bool> brackish, double minutes, double limitMinutes)
    {
        var count = brackish.Count;
        var inBrackish = brackish.Count(b => b);
        if (inBrackish == 0 || minutes / count * inBrackish <= limitMinutes)
        {
            return [.. brackish.Select(_ => minutes / count)];
        }

        if (inBrackish == count)
        {
            return null;
        }

        // A hair below the limit, so that the sum never lies above it.
        var hurried = limitMinutes * (1 - 1e-12) / inBrackish;
        var unhurried = (minutes - (hurried * inBrackish)) / (count - inBrackish);
        return [.. brackish.Select(b => b ? hurried : unhurried)];
    }
}
