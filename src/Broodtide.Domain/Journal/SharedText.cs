using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace Broodtide.Domain.Journal;

/// <summary>
/// One string object for texts that repeat in nearly every entry (names, kinds, zones, unit codes): a small
/// per-thread table, so that a long journal does not hold a hundred thousand copies of "reading taken".
/// </summary>
internal static class SharedText
{
    private const int Slots = 256;
    private const int Longest = 48;

    [ThreadStatic]
    private static Shared[]? _texts;

    public static string From(ref Utf8JsonReader reader) =>
        reader.ValueIsEscaped ? reader.GetString()! : Of(reader.ValueSpan);

    /// <summary>The text of UTF-8 bytes in which nothing is escaped.</summary>
    /// <exception cref="InvalidOperationException">The bytes are no UTF-8.</exception>
    public static string Of(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > Longest)
        {
            return Decoded(utf8);
        }

        var hash = 17u;
        foreach (var b in utf8)
        {
            hash = unchecked((hash * 31) + b);
        }

        var texts = _texts ??= new Shared[Slots];
        ref var slot = ref texts[hash % Slots];
        if (slot.Text is { } held && slot.Bytes.AsSpan().SequenceEqual(utf8))
        {
            return held;
        }

        var text = Decoded(utf8);
        slot = new(text, utf8.ToArray());
        return text;
    }

    // As a reader of JSON fails.
    private static string Decoded(ReadOnlySpan<byte> utf8) =>
        Utf8.IsValid(utf8)
            ? Encoding.UTF8.GetString(utf8)
            : throw new InvalidOperationException("A string is no UTF-8.");

    private readonly record struct Shared(string? Text, byte[] Bytes);
}
