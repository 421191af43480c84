using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Broodtide.Phone.Language;

/// <summary>
/// Every word that the app says, by code. A text holds places for arguments, <c>{0}</c>; words that follow a
/// number, <c>{0:entry|entries}</c>; <c>_slanted_</c> for what is worked out and <c>*bold*</c>. A code without words
/// is shown as itself, so a screen never fails for want of a sentence.
/// </summary>
internal sealed class Words
{
    private readonly Dictionary<string, string> _texts;

    private Words(string language, Dictionary<string, string> texts)
    {
        Language = language;
        _texts = texts;
    }

    /// <summary>The code of the language, as pages name theirs.</summary>
    public string Language { get; }

    /// <summary>The language that is built in.</summary>
    public static Words English()
    {
        using var stream =
            typeof(Words).Assembly.GetManifestResourceStream("words.en.json")
            ?? throw new InvalidOperationException("The words are not built in.");
        return new Words("en", new(StringComparer.Ordinal)).In("en", stream);
    }

    /// <summary>The same in another language. What its file does not say stays as it is here.</summary>
    public Words In(string language, Stream file)
    {
        using var texts = JsonDocument.Parse(file);
        var said = new Dictionary<string, string>(_texts, StringComparer.Ordinal);
        foreach (var text in texts.RootElement.EnumerateObject())
        {
            said[text.Name] = text.Value.GetString() ?? "";
        }

        return new(language, said);
    }

    public IReadOnlyCollection<string> Codes => _texts.Keys;

    /// <summary>Plain words, without marks for slant or weight.</summary>
    public string this[string code, params ReadOnlySpan<object> arguments] =>
        string.Concat(Parts(code, arguments).Select(part => part.Text));

    /// <summary>The text in runs of one style.</summary>
    public IReadOnlyList<WordPart> Parts(string code, params ReadOnlySpan<object> arguments)
    {
        if (!_texts.TryGetValue(code, out var text))
        {
            return [new(code, WordStyle.Plain)];
        }

        return Cut(text, arguments);
    }

    /// <summary>A text as it stands in its file, with its places and marks.</summary>
    public string Written(string code) => _texts[code];

    /// <summary>Whether there are words for a code.</summary>
    public bool Has(string code) => _texts.ContainsKey(code);

    /// <summary>The text in runs of one style, its places filled by name: <c>{salinityPpt}</c>.</summary>
    public IReadOnlyList<WordPart> Named(string code, Func<string, object> valueOf)
    {
        if (!_texts.TryGetValue(code, out var text))
        {
            return [new(code, WordStyle.Plain)];
        }

        // Names become numbers, so that there is one way of filling in.
        var numbered = new StringBuilder();
        var values = new List<object>();
        var at = 0;
        while (text.IndexOf('{', at) is var open and >= 0)
        {
            var end = text.AsSpan(open).IndexOfAny('}', ':') + open;
            numbered.Append(text, at, open - at).Append('{').Append(values.Count);
            values.Add(valueOf(text[(open + 1)..end]));
            at = end;
        }

        numbered.Append(text, at, text.Length - at);
        return Cut(numbered.ToString(), [.. values]);
    }

    private static List<WordPart> Cut(string text, ReadOnlySpan<object> arguments)
    {
        var parts = new List<WordPart>();
        var run = new StringBuilder();
        var style = WordStyle.Plain;
        for (var at = 0; at < text.Length; at++)
        {
            switch (text[at])
            {
                case '_':
                    Close(parts, run, style);
                    style = style == WordStyle.Slanted ? WordStyle.Plain : WordStyle.Slanted;
                    break;
                case '*':
                    Close(parts, run, style);
                    style = style == WordStyle.Bold ? WordStyle.Plain : WordStyle.Bold;
                    break;
                case '{':
                    var end = text.IndexOf('}', at);
                    run.Append(Filled(text.AsSpan(at + 1, end - at - 1), arguments));
                    at = end;
                    break;
                default:
                    run.Append(text[at]);
                    break;
            }
        }

        Close(parts, run, style);
        return parts;
    }

    private static void Close(List<WordPart> parts, StringBuilder run, WordStyle style)
    {
        if (run.Length > 0)
        {
            parts.Add(new(run.ToString(), style));
            run.Clear();
        }
    }

    private static string Filled(ReadOnlySpan<char> place, ReadOnlySpan<object> arguments)
    {
        var colon = place.IndexOf(':');
        var number = colon < 0 ? place : place[..colon];
        if (!int.TryParse(number, CultureInfo.InvariantCulture, out var index))
        {
            // A place with a name, in a text that is filled by number: it stays to be seen.
            return $"{{{place}}}";
        }

        var argument = arguments[index];
        if (colon < 0)
        {
            return Convert.ToString(argument, CultureInfo.InvariantCulture) ?? "";
        }

        var forms = place[(colon + 1)..];
        var bar = forms.IndexOf('|');
        var isOne = Convert.ToDouble(argument, CultureInfo.InvariantCulture) is 1;
        return (isOne ? forms[..bar] : forms[(bar + 1)..]).ToString();
    }
}

/// <summary>How a run of words stands.</summary>
public enum WordStyle
{
    Plain,
    Slanted,
    Bold,
}

/// <summary>A run of words in one style.</summary>
public readonly record struct WordPart(string Text, WordStyle Style);
