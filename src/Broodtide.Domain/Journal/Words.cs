using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>Writes the members of an enumeration as lower-case words joined by hyphens; numbers are not taken.</summary>
/// <typeparam name="T">The enumeration.</typeparam>
public sealed class Words<T>()
    : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;

/// <summary>Writes an instant in the journal's form of ISO 8601.</summary>
public sealed class InstantConverter : JsonConverter<Instant>
{
    /// <inheritdoc/>
    public override Instant Read(
        ref Utf8JsonReader reader,
        Type typeToConvert,
        JsonSerializerOptions options
    ) =>
        reader.TokenType == JsonTokenType.String && UtcText.TryParse(reader.ValueSpan, out var instant)
            ? instant
            : throw new JsonException("An instant looks like 2026-03-01T21:05:00Z.");

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Instant value, JsonSerializerOptions options) =>
        writer.WriteStringValue(UtcText.Format(value));
}
