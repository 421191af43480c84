using Broodtide.Phone.Language;

namespace Broodtide.Phone.Writing;

/// <summary>Words that there may be.</summary>
internal static class WordsOr
{
    public static bool Has(this Words words, string code) => words.Codes.Contains(code);

    /// <summary>The words of a code, or a text in their place.</summary>
    public static string Or(this Words words, string code, string otherwise) =>
        words.Has(code) ? words[code] : otherwise;

    /// <summary>What a form calls a field: its own word, or that of the field.</summary>
    public static string Field(this Words words, Form form, string name) =>
        words.Or($"field.{form.Code}.{name}", words.Or("field." + name, name));
}
