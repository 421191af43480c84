using System.Text;

namespace Broodtide.Workbench.Reminders;

/// <summary>
/// Content lines of RFC 5545, section 3.1: each at most 75 octets of UTF-8 without its end, folded between characters,
/// ended by CR LF. Texts are escaped after section 3.3.11.
/// </summary>
internal sealed class CalendarLines
{
    /// <summary>Octets of a line without its end; RFC 5545, section 3.1.</summary>
    public const int MostOctets = 75;

    private readonly StringBuilder _text = new();

    public void Add(string name, string value)
    {
        var octets = 0;
        foreach (var rune in $"{name}:{value}".EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > MostOctets)
            {
                // The blank that begins the next line counts.
                _text.Append("\r\n ");
                octets = 1;
            }

            _text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }

        _text.Append("\r\n");
    }

    public void AddText(string name, string text) => Add(name, Escaped(text));

    public override string ToString() => _text.ToString();

    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length + 16);
        foreach (var rune in text.ReplaceLineEndings("\n").EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '\n' => escaped.Append("\\n"),
                '\\' or ';' or ',' => escaped.Append('\\').Append(rune.ToString()),
                // A control character has no place in a text; section 3.1, CONTROL.
                < ' ' and not '\t' or 0x7F => escaped,
                _ => escaped.Append(rune.ToString()),
            };
        }

        return escaped.ToString();
    }
}
