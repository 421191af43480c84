using System.Text;

namespace Broodtide.Phone.Dossiers;

/// <summary>
/// The look of a dossier's page, made from the app's own: colours, pictures, letters. It goes into the page, which asks
/// nothing of any network.
/// </summary>
internal static class DossierStyle
{
    /// <summary>The files it is made from, under the app's root, in their order.</summary>
    public static IReadOnlyList<string> Sheets { get; } =
    ["css/tokens.css", "css/pictures.css", "css/dossier.css"];

    /// <summary>The letters it carries: weight, slant and file.</summary>
    public static IReadOnlyList<(int Weight, string Slant, string File)> Letters { get; } =
    [
        (400, "normal", "fonts/clear-sans-Regular.woff2"),
        (400, "italic", "fonts/clear-sans-Italic.woff2"),
        (700, "normal", "fonts/clear-sans-Bold.woff2"),
    ];

    /// <summary>The style as one text.</summary>
    /// <param name="fileOf">The bytes of a file of the app; none where it cannot be had, and the system's letters stand in.</param>
    public static string Of(Func<string, byte[]?> fileOf)
    {
        var text = new StringBuilder();
        foreach (var (weight, slant, file) in Letters)
        {
            if (fileOf(file) is { } letters)
            {
                text.Append("@font-face{font-family:\"Broodtide Sans\";src:url(data:font/woff2;base64,")
                    .Append(Convert.ToBase64String(letters))
                    .Append(") format(\"woff2\");font-weight:")
                    .Append(weight)
                    .Append(";font-style:")
                    .Append(slant)
                    .Append("}\n");
            }
        }

        foreach (var sheet in Sheets)
        {
            if (fileOf(sheet) is { } style)
            {
                text.Append(WithoutLetters(Encoding.UTF8.GetString(style)));
            }
        }

        // Nothing in it may end the element it stands in.
        return text.Replace("</", "<\\/").ToString();
    }

    // Letters that would be fetched from beside the page.
    private static string WithoutLetters(string style)
    {
        const string begin = "@font-face";
        while (style.IndexOf(begin, StringComparison.Ordinal) is var from and >= 0)
        {
            style = style.Remove(from, style.IndexOf('}', from) + 1 - from);
        }

        return style;
    }
}
