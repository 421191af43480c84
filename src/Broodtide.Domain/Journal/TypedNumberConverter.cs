using System.Text.Json;
using System.Text.Json.Serialization;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Writes and reads a typed number by hand: nearly every fact has one or two, and the generated code makes a dozen
/// small objects for each.
/// </summary>
public sealed class TypedNumberConverter : JsonConverter<TypedNumber>
{
    /// <inheritdoc/>
    public override TypedNumber Read(
        ref Utf8JsonReader reader,
        Type typeToConvert,
        JsonSerializerOptions options
    )
    {
        string? typed = null;
        string? unit = null;
        double? value = null;
        bool? doubted = null;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            throw new JsonException();
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            switch (SharedText.From(ref reader))
            {
                case "typed":
                    Once(typed);
                    Expect(ref reader, JsonTokenType.String);
                    typed = reader.GetString();
                    break;
                case "unit":
                    Once(unit);
                    Expect(ref reader, JsonTokenType.String);
                    unit = SharedText.From(ref reader);
                    break;
                case "value":
                    Once(value);
                    Expect(ref reader, JsonTokenType.Number);
                    value = reader.GetDouble();
                    break;
                case "doubted":
                    Once(doubted);
                    reader.Read();
                    doubted = reader.GetBoolean();
                    break;
                default:
                    reader.Read();
                    reader.Skip();
                    break;
            }
        }

        return typed is not null && unit is not null && value is { } number
            ? new TypedNumber(typed, unit, number, doubted ?? false)
            : throw new JsonException();
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, TypedNumber value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteBoolean("doubted"u8, value.Doubted);
        writer.WriteString("typed"u8, value.Typed);
        writer.WriteString("unit"u8, value.Unit);
        writer.WriteNumber("value"u8, value.Value);
        writer.WriteEndObject();
    }

    private static void Once(object? before)
    {
        if (before is not null)
        {
            throw new JsonException();
        }
    }

    private static void Expect(ref Utf8JsonReader reader, JsonTokenType wanted)
    {
        if (!reader.Read() || reader.TokenType != wanted)
        {
            throw new JsonException();
        }
    }
}
