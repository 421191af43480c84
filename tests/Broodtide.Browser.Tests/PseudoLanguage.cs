using System.Text;
using System.Text.RegularExpressions;
using Broodtide.Phone.Language;

namespace Broodtide.Browser.Tests;

/// <summary>
/// A language that nobody speaks, made from English: accents on its letters, two fifths longer, a bracket round every
/// text. What stands on a page without brackets did not come from the language file.
/// </summary>
internal static class PseudoLanguage
{
    public const char Open = '⟦';
    public const char Close = '⟧';

    private const double Longer = 0.4;
    private const string Plain = "aceinosuyACEINOSUY";
    private const string Accented = "áçéíñóšúýÁÇÉÍÑÓŠÚÝ";

    /// <summary>All texts; formats stay, since a program reads them.</summary>
    public static Dictionary<string, string> Texts()
    {
        var english = Words.English();
        using var german = File.OpenRead(
            Path.Combine(PublishedSite.Root, "src", "Broodtide.Phone", "wwwroot", "language", "de.json")
        );
        // The profile's own texts stand in no English file: here they are made from the German one.
        var all = english.In("de", german);
        return all.Codes.ToDictionary(
            code => code,
            code =>
                code.StartsWith("format.", StringComparison.Ordinal) ? english[code]
                : code.StartsWith("profile.", StringComparison.Ordinal) ? Of(all.Written(code))
                : Of(english.Written(code))
        );
    }

    /// <summary>One text: places and marks stay, words change.</summary>
    public static string Of(string text)
    {
        var told = new StringBuilder().Append(Open);
        var letters = 0;
        var depth = 0;
        var isForm = false;
        foreach (var letter in text)
        {
            switch (letter)
            {
                case '{':
                    depth++;
                    isForm = false;
                    break;
                case '}':
                    depth--;
                    break;
                case ':' when depth > 0:
                    isForm = true;
                    break;
            }

            var isWord = depth == 0 || isForm;
            letters += isWord && char.IsLetter(letter) ? 1 : 0;
            var at = isWord ? Plain.IndexOf(letter, StringComparison.Ordinal) : -1;
            told.Append(at < 0 ? letter : Accented[at]);
        }

        var more = (int)Math.Ceiling(letters * Longer);
        for (var at = 0; at < more; at++)
        {
            told.Append(at % 7 == 0 ? ' ' : 'ö');
        }

        return told.Append(Close).ToString();
    }

    /// <summary>The runs of a page's text that stand outside all brackets and say something.</summary>
    /// <param name="text">All text of the page in its order.</param>
    /// <param name="known">What may stand there: names that a keeper gave, units, codes, the product's name.</param>
    public static IReadOnlyList<string> Outside(string text, IEnumerable<string> known)
    {
        var outside = new List<string>();
        var run = new StringBuilder();
        var depth = 0;
        foreach (var letter in text)
        {
            switch (letter)
            {
                case Open:
                    End();
                    depth++;
                    break;
                case Close:
                    depth--;
                    break;
                case '\n':
                    End();
                    break;
                default:
                    if (depth == 0)
                    {
                        run.Append(letter);
                    }

                    break;
            }
        }

        End();
        return depth == 0 ? outside : [.. outside, $"{depth} brackets stay open"];

        void End()
        {
            var said = run.ToString();
            run.Clear();
            foreach (var name in known.OrderByDescending(name => name.Length))
            {
                said = Regex.Replace(
                    said,
                    $@"(?<!\p{{L}}){Regex.Escape(name)}(?!\p{{L}})",
                    " ",
                    RegexOptions.None,
                    TimeSpan.FromSeconds(1)
                );
            }

            if (said.Any(char.IsLetter))
            {
                outside.Add(said.Trim());
            }
        }
    }
}
