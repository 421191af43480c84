namespace Broodtide.Units;

/// <summary>One thing a remark speaks of.</summary>
/// <param name="Name">Its name in the sentence; a number's name ends with its unit, such as "salinityPpt".</param>
/// <param name="Value">A text, a number, an instant or an identity; doors give it a person's form.</param>
public readonly record struct Argument(string Name, object Value);

/// <summary>
/// What the core says when it refuses, doubts, warns, advises or explains: a code with arguments. Doors turn it
/// into a person's language, units, decimal mark and clock.
/// </summary>
public sealed record Remark
{
    /// <summary>A remark of a code and its arguments.</summary>
    public Remark(string code, params ReadOnlySpan<Argument> arguments)
    {
        Code = code;
        Arguments = arguments.ToArray();
    }

    /// <summary>The code, lower-case words joined by hyphens, such as "volume-over-capacity".</summary>
    public string Code { get; }

    /// <summary>What it speaks of, in the order of saying.</summary>
    public IReadOnlyList<Argument> Arguments { get; }

    /// <summary>The argument of a name, or none.</summary>
    public object? this[string name]
    {
        get
        {
            foreach (var argument in Arguments)
            {
                if (string.Equals(argument.Name, name, StringComparison.Ordinal))
                {
                    return argument.Value;
                }
            }

            return null;
        }
    }

    /// <summary>Two remarks are equal when code and arguments are.</summary>
    public bool Equals(Remark? other) =>
        other is not null
        && string.Equals(Code, other.Code, StringComparison.Ordinal)
        && Arguments.SequenceEqual(other.Arguments);

    /// <inheritdoc/>
    public override int GetHashCode() => Code.GetHashCode(StringComparison.Ordinal);

    /// <summary>Code and arguments, for a programmer's eye.</summary>
    public override string ToString() =>
        Arguments.Count == 0
            ? Code
            : $"{Code}({string.Join(", ", Arguments.Select(a => $"{a.Name}: {a.Value}"))})";
}
