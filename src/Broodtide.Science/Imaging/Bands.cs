namespace Broodtide.Science.Imaging;

/// <summary>A place in long work where whoever does it may rest or stop; nothing changes by that.</summary>
internal readonly record struct Pause;

/// <summary>The rows of a picture in bands, so that work on it can be done a band at a time.</summary>
internal static class Bands
{
    // Values fetched between two pauses; measured in a browser (docs/looking.md): some hundredths of a second.
    private const long Fetched = 1_500_000;

    /// <summary>Bands from top to bottom: the first row and the one after the last.</summary>
    /// <param name="shape">The picture.</param>
    /// <param name="perPixel">About how many values are fetched for a pixel, 1 or more.</param>
    public static IEnumerable<(int From, int To)> Of(GridShape shape, int perPixel)
    {
        var rows = (int)Math.Clamp(Fetched / perPixel / shape.Across, 1, shape.Down);
        for (var from = 0; from < shape.Down; from += rows)
        {
            yield return (from, Math.Min(shape.Down, from + rows));
        }
    }

    /// <summary>Parts of a row of values: the first and the one after the last.</summary>
    /// <param name="length">How many values there are.</param>
    /// <param name="perValue">About how many values are fetched for one of them, 1 or more.</param>
    public static IEnumerable<(int From, int To)> Along(int length, int perValue)
    {
        var part = (int)(Fetched / perValue);
        for (var from = 0; from < length; from += part)
        {
            yield return (from, Math.Min(length, from + part));
        }
    }

    /// <summary>Works to the end without a rest.</summary>
    public static void Whole(this IEnumerable<Pause> work)
    {
        foreach (var _ in work) { }
    }
}
