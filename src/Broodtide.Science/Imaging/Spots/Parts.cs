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
        var places = Maxima.Standing(tops, shape, standing);
        yield return [];
        var labels = new int[shape.Count];
        for (var i = 0; i < places.Count; i++)
        {
            labels[places[i]] = i + 1;
        }

        Watershed.Grow(tops, shape, marked, labels);
        yield return [];
        yield return [.. Components.Measure(labels, shape, places.Count).Zip(places)];
    }
}
