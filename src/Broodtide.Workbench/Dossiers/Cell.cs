using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Dossiers;

/// <summary>Values as they stand in a table. What is not known is an empty text.</summary>
internal static class Cell
{
    // Readers of tables expect whole seconds; the journal keeps the rest.
    private static readonly InstantPattern ToTheSecond = InstantPattern.CreateWithInvariantCulture(
        "uuuu-MM-dd'T'HH:mm:ss'Z'"
    );

    public static string Of(Instant? at) => at is { } known ? ToTheSecond.Format(known) : "";

    public static string Of(double? number) =>
        number is { } known ? known.ToString("R", CultureInfo.InvariantCulture) : "";

    public static string Of(long? number) => number?.ToString(CultureInfo.InvariantCulture) ?? "";

    public static string Of(Guid? id) => id?.ToString() ?? "";

    public static string Of(bool? yes) =>
        yes switch
        {
            true => "true",
            false => "false",
            null => "",
        };

    /// <summary>A member of a closed list, as words joined by hyphens.</summary>
    public static string Word<T>(T? word)
        where T : struct, Enum => word is { } known ? Hyphened(known.ToString()) : "";

    public static IReadOnlyList<string> Words<T>()
        where T : struct, Enum => [.. Enum.GetNames<T>().Select(Hyphened)];

    private static string Hyphened(string name) =>
        string.Concat(
            name.Select(
                (letter, place) =>
                    char.IsAsciiLetterUpper(letter)
                        ? (place > 0 ? "-" : "") + char.ToLowerInvariant(letter)
                        : letter.ToString()
            )
        );
}
