using System.Text.Json;

namespace Broodtide.Cli.Door;

/// <summary>Members of closed lists as lower-case words joined by hyphens, as the journal writes them.</summary>
internal static class EnumWords
{
    public static string Of<T>(T member)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(member.ToString());

    public static string All<T>()
        where T : struct, Enum => string.Join(", ", Enum.GetValues<T>().Select(Of));

    /// <summary>The same for a person: without the hyphens.</summary>
    public static string Plain<T>(T member)
        where T : struct, Enum => Of(member).Replace('-', ' ');
}
