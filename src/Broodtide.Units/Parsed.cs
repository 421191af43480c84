using System.Diagnostics.CodeAnalysis;

namespace Broodtide.Units;

/// <summary>What became of a text or a file from a person: a value, or the reason why there is none.</summary>
/// <typeparam name="T">What was wanted.</typeparam>
public sealed class Parsed<T>
    where T : notnull
{
    private readonly T? _value;

    private Parsed(T? value, Remark? reason)
    {
        _value = value;
        Reason = reason;
    }

    /// <summary>Why there is no value: what, where and what is allowed. None when there is one.</summary>
    public Remark? Reason { get; }

    /// <summary>Whether there is a value.</summary>
    [MemberNotNullWhen(false, nameof(Reason))]
    public bool Succeeded => Reason is null;

    /// <summary>The value.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public T Value => Succeeded ? _value! : throw new InvalidOperationException(Reason.ToString());

    /// <summary>A value that was found.</summary>
    public static Parsed<T> Of(T value) => new(value, null);

    /// <summary>No value, for a reason.</summary>
    public static Parsed<T> No(Remark reason) => new(default, reason);

    /// <summary>No value, for a reason.</summary>
    public static Parsed<T> No(string code, params ReadOnlySpan<Argument> arguments) =>
        No(new Remark(code, arguments));
}
