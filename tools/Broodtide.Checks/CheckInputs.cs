using System.Diagnostics.CodeAnalysis;

namespace Broodtide.Checks;

/// <summary>The inputs of one check: <c>key=value</c> pairs, separated by a semicolon and a space.</summary>
public sealed class CheckInputs
{
    private readonly Dictionary<string, string> _values;

    private CheckInputs(Dictionary<string, string> values) => _values = values;

    /// <summary>The keys in the order written.</summary>
    public IReadOnlyList<string> Keys => [.. _values.Keys];

    /// <summary>The pairs as text.</summary>
    /// <exception cref="CheckFormatException">Something is not a pair, or a key stands twice.</exception>
    public static CheckInputs Parse(string text)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var pair in text.Length == 0 ? [] : text.Split("; "))
        {
            var equals = pair.IndexOf('=', StringComparison.Ordinal);
            if (equals <= 0 || !pair[..equals].All(sign => char.IsAsciiLetterOrDigit(sign) || sign == '_'))
            {
                throw new CheckFormatException(
                    $"`{pair}` in the inputs: allowed are pairs such as S=35, separated by a semicolon and one space; "
                        + "keys are letters, digits and underscore"
                );
            }

            var value = pair[(equals + 1)..];
            if (!CheckValue.IsWord(value) && !CheckValue.TryList(value, out _))
            {
                throw new CheckFormatException(
                    $"the value `{value}` of {pair[..equals]}: allowed is a number, a word without spaces, or a list such "
                        + "as [1 2 3] with single spaces"
                );
            }

            if (!values.TryAdd(pair[..equals], value))
            {
                throw new CheckFormatException($"the key {pair[..equals]} stands twice: each key once");
            }
        }

        return new(values);
    }

    /// <summary>Whether a key is there.</summary>
    public bool Has(string key) => _values.ContainsKey(key);

    /// <summary>A number.</summary>
    public double Number(string key) =>
        CheckValue.TryNumber(Text(key), out var number)
            ? number
            : throw new CheckFormatException(
                $"{key}=`{Text(key)}`: a number is wanted, such as 12, -0.05 or 1.5e6"
            );

    /// <summary>A number that may be absent.</summary>
    public double NumberOr(string key, double absent) => Has(key) ? Number(key) : absent;

    /// <summary>A list of numbers.</summary>
    public double[] Numbers(string key) =>
        CheckValue.TryList(Text(key), out var items)
            ?
            [
                .. items.Select(item =>
                    CheckValue.TryNumber(item, out var number)
                        ? number
                        : throw new CheckFormatException(
                            $"{key}: `{item}` is no number; a list such as [1 2 3] is wanted"
                        )
                ),
            ]
            : throw new CheckFormatException($"{key}=`{Text(key)}`: a list such as [1 2 3] is wanted");

    /// <summary>A whole number.</summary>
    /// <exception cref="ArgumentException">Not whole: the quantity refuses it.</exception>
    public int Whole(string key) => Whole(Number(key), key);

    /// <summary>A list of whole numbers.</summary>
    /// <exception cref="ArgumentException">One is not whole: the quantity refuses it.</exception>
    public int[] Wholes(string key) => [.. Numbers(key).Select(number => Whole(number, key))];

    /// <summary>A list of words, or one word that stands alone.</summary>
    public IReadOnlyList<string> Words(string key) =>
        CheckValue.TryList(Text(key), out var items) ? items : [Word(key)];

    /// <summary>A word as written.</summary>
    public string Word(string key) =>
        CheckValue.IsWord(Text(key))
            ? Text(key)
            : throw new CheckFormatException($"{key}=`{Text(key)}`: a word is wanted");

    /// <summary>One of several words, each standing for something.</summary>
    /// <exception cref="ArgumentException">None of the words: the quantity refuses it.</exception>
    public T OneOf<T>(string key, params (string Word, T Meaning)[] allowed)
    {
        var word = Word(key);
        foreach (var (name, meaning) in allowed)
        {
            if (string.Equals(name, word, StringComparison.Ordinal))
            {
                return meaning;
            }
        }

        throw new ArgumentException(
            $"{key}={word}: allowed is {string.Join(", ", allowed.Select(pair => pair.Word))}",
            nameof(key)
        );
    }

    /// <summary>The same inputs with one of them written otherwise.</summary>
    public CheckInputs With(string key, string value) =>
        new(new Dictionary<string, string>(_values, StringComparer.Ordinal) { [key] = value });

    /// <summary>A value as text, if there.</summary>
    public bool TryText(string key, [NotNullWhen(true)] out string? text) =>
        _values.TryGetValue(key, out text);

    /// <summary>The pairs in the form they are read from.</summary>
    public override string ToString() =>
        string.Join("; ", _values.Select(pair => $"{pair.Key}={pair.Value}"));

    private static int Whole(double number, string key) =>
        double.IsInteger(number) && Math.Abs(number) <= int.MaxValue
            ? (int)number
            : throw new ArgumentException($"{key}: {number:R} is no whole number", key);

    private string Text(string key) =>
        _values.TryGetValue(key, out var text)
            ? text
            : throw new CheckFormatException($"the key {key} is missing");
}
