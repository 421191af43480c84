namespace Broodtide.Phone.Parts;

/// <summary>Names for elements that refer to each other, unlike any other on the page.</summary>
internal static class Numbered
{
    private static int _count;

    public static string Next(string name) => $"{name}-{++_count}";
}
