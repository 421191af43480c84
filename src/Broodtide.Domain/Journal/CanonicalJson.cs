using System.Buffers;
using System.Text;
using System.Text.Json;

namespace Broodtide.Domain.Journal;

/// <summary>
/// The JSON Canonicalization Scheme of RFC 8785: one byte string for one JSON value. No whitespace, names sorted
/// by UTF-16 code units, numbers as ECMAScript writes them, shortest string escapes.
/// </summary>
public static class CanonicalJson
{
    /// <summary>The canonical UTF-8 bytes of a JSON text.</summary>
    /// <exception cref="JsonException">
    /// The text is not I-JSON: not JSON, a name twice in one object, or a number that no finite double holds.
    /// </exception>
    public static byte[] From(ReadOnlySpan<byte> utf8Json) =>
        // What is written here is nearly always canonical already, and to see that takes a small part of the time.
        CanonicalGlance.Sees(utf8Json)
            ? utf8Json.ToArray()
            : Anew(utf8Json);

    /// <summary>The same by reading every part and writing it again: what a glance is held against.</summary>
    internal static byte[] Anew(ReadOnlySpan<byte> utf8Json)
    {
        var reader = new Utf8JsonReader(utf8Json);
        using var document = JsonDocument.ParseValue(ref reader);
        if (reader.Read())
        {
            throw new JsonException("More than one value.");
        }

        var output = new ArrayBufferWriter<byte>(utf8Json.Length);
        Write(document.RootElement, output);
        return output.WrittenSpan.ToArray();
    }

    /// <summary>Whether the bytes are already in canonical form.</summary>
    public static bool Is(ReadOnlySpan<byte> utf8Json)
    {
        if (CanonicalGlance.Sees(utf8Json))
        {
            return true;
        }

        try
        {
            return Anew(utf8Json).AsSpan().SequenceEqual(utf8Json);
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static void Write(JsonElement element, ArrayBufferWriter<byte> output)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                WriteObject(element, output);
                break;
            case JsonValueKind.Array:
                WriteArray(element, output);
                break;
            case JsonValueKind.String:
                WriteString(Text(element), output);
                break;
            case JsonValueKind.Number:
                WriteNumber(element, output);
                break;
            case JsonValueKind.True:
                output.Write("true"u8);
                break;
            case JsonValueKind.False:
                output.Write("false"u8);
                break;
            case JsonValueKind.Null:
                output.Write("null"u8);
                break;
            default:
                throw new JsonException("No JSON value.");
        }
    }

    private static string Text(JsonElement element)
    {
        try
        {
            return element.GetString()!;
        }
        catch (InvalidOperationException broken)
        {
            throw NotText(broken);
        }
    }

    private static List<(string Name, JsonElement Value)> Members(JsonElement element)
    {
        var members = new List<(string Name, JsonElement Value)>();
        try
        {
            foreach (var member in element.EnumerateObject())
            {
                members.Add((member.Name, member.Value));
            }
        }
        catch (InvalidOperationException broken)
        {
            throw NotText(broken);
        }

        members.Sort((left, right) => string.CompareOrdinal(left.Name, right.Name));
        return members;
    }

    private static JsonException NotText(Exception broken) =>
        new("A string is no UTF-8, or holds half of a surrogate pair.", broken);

    private static void WriteObject(JsonElement element, ArrayBufferWriter<byte> output)
    {
        var members = Members(element);
        output.Write("{"u8);
        for (var i = 0; i < members.Count; i++)
        {
            if (i > 0)
            {
                if (string.Equals(members[i].Name, members[i - 1].Name, StringComparison.Ordinal))
                {
                    throw new JsonException($"The name {members[i].Name} stands twice.");
                }

                output.Write(","u8);
            }

            WriteString(members[i].Name, output);
            output.Write(":"u8);
            Write(members[i].Value, output);
        }

        output.Write("}"u8);
    }

    private static void WriteArray(JsonElement element, ArrayBufferWriter<byte> output)
    {
        output.Write("["u8);
        var first = true;
        foreach (var item in element.EnumerateArray())
        {
            if (!first)
            {
                output.Write(","u8);
            }

            first = false;
            Write(item, output);
        }

        output.Write("]"u8);
    }

    private static void WriteNumber(JsonElement element, ArrayBufferWriter<byte> output)
    {
        if (!element.TryGetDouble(out var value) || !double.IsFinite(value))
        {
            throw new JsonException($"{element.GetRawText()} is no finite double.");
        }

        output.Write(Encoding.UTF8.GetBytes(EcmaNumber.Format(value)));
    }

    private static void WriteString(string text, ArrayBufferWriter<byte> output)
    {
        var escaped = new StringBuilder(text.Length + 2).Append('"');
        foreach (var c in text)
        {
            _ = c switch
            {
                '"' => escaped.Append("\\\""),
                '\\' => escaped.Append("\\\\"),
                '\b' => escaped.Append("\\b"),
                '\f' => escaped.Append("\\f"),
                '\n' => escaped.Append("\\n"),
                '\r' => escaped.Append("\\r"),
                '\t' => escaped.Append("\\t"),
                < ' ' => escaped.Append("\\u").Append(((int)c).ToString("x4")),
                _ => escaped.Append(c),
            };
        }

        escaped.Append('"');
        try
        {
            output.Write(StrictUtf8.GetBytes(escaped.ToString()));
        }
        catch (EncoderFallbackException broken)
        {
            throw NotText(broken);
        }
    }

    private static readonly UTF8Encoding StrictUtf8 = new(false, throwOnInvalidBytes: true);
}
