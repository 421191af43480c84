using System.Text.Json;

namespace Broodtide.Domain.Journal;

/// <summary>
/// One string object for texts that repeat in nearly every entry (names, kinds, zones, unit codes): a small
/// per-thread table, so that a long journal does not hold a hundred thousand copies of "reading taken".
/// </summary>
internal static class SharedText
{
    private const int Slots = 256;

    [ThreadStatic]
    private static string?[]? _texts;

    public static string From(ref Utf8JsonReader reader)
    {
        var span = reader.ValueSpan;
        if (reader.ValueIsEscaped || span.Length > 48)
        {
            return reader.GetString()!;
        }

        var hash = 17u;
        foreach (var b in span)
        {
            hash = unchecked((hash * 31) + b);
        }

        var texts = _texts ??= new string?[Slots];
        ref var slot = ref texts[hash % Slots];
        if (slot is null || !reader.ValueTextEquals(slot))
        {
            slot = reader.GetString()!;
        }

        return slot;
    }
}
