namespace Broodtide.Science.Imaging.Spots;

/// <summary>Things parted where they touch.</summary>
internal static class Parts
{
    /// <summary>
    /// Watershed from the tops that stand out by more than a height, over what is marked; each thing with the place of
    /// its top. With pauses: the last is the answer.
    /// </summary>
    public static IEnumerable<IReadOnlyList<(Region Thing, int Top)>> Steps(
        float[] tops,
        GridShape shape,
        byte[] marked,
        double standing
    )
    {
        IReadOnlyList<int> places = [];
        foreach (var step in Maxima.Steps(tops, shape, standing))
        {
            places = step;
            yield return [];
        }

        var labels = new int[shape.Count];
        for (var i = 0; i < places.Count; i++)
        {
            labels[places[i]] = i + 1;
        }

        foreach (var _ in Watershed.Steps(tops, shape, marked, labels))
        {
            yield return [];
        }

        yield return [.. Components.Measure(labels, shape, places.Count).Zip(places)];
    }
}
