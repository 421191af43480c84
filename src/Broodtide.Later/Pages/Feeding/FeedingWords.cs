using Broodtide.Science.Food;

namespace Broodtide.Phone.Pages.Feeding;

/// <summary>Names of algae as they are written: the genus with a capital.</summary>
internal static class FeedingWords
{
    public static string Alga(AlgaKind alga) =>
        string.Concat(char.ToUpperInvariant(alga.Code[0]).ToString(), alga.Code.Replace('-', ' ').AsSpan(1));
}
