using System.Text.Json;

namespace Broodtide.Workbench.Dossiers;

/// <summary>What the descriptor of a package says of a table: how it is written, and every column.</summary>
internal static class TableDescriptor
{
    public static void Write(Utf8JsonWriter json, DataTable table)
    {
        json.WriteString("type"u8, "table");
        json.WriteString("profile"u8, "tabular-data-resource");
        json.WriteString("encoding"u8, "utf-8");
        json.WriteStartObject("dialect"u8);
        json.WriteString("delimiter"u8, ",");
        json.WriteString("lineTerminator"u8, "\r\n");
        json.WriteString("quoteChar"u8, "\"");
        json.WriteBoolean("doubleQuote"u8, true);
        json.WriteBoolean("header"u8, true);
        json.WriteEndObject();
        json.WriteStartObject("schema"u8);
        json.WriteStartArray("fields"u8);
        foreach (var column in table.Columns)
        {
            WriteColumn(json, column);
        }

        json.WriteEndArray();
        json.WriteStartArray("missingValues"u8);
        json.WriteStringValue("");
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteColumn(Utf8JsonWriter json, Column column)
    {
        json.WriteStartObject();
        json.WriteString("name"u8, column.Name);
        json.WriteString(
            "type"u8,
            column.Type switch
            {
                ColumnType.Number => "number",
                ColumnType.Integer => "integer",
                ColumnType.YesNo => "boolean",
                ColumnType.Instant => "datetime",
                _ => "string",
            }
        );
        json.WriteString("description"u8, column.Description);
        if (column.Unit is { } unit)
        {
            // No member of the standard: the UCUM code of the unit.
            json.WriteString("unit"u8, unit);
        }

        if (column.Required || column.Codes is not null)
        {
            json.WriteStartObject("constraints"u8);
            if (column.Required)
            {
                json.WriteBoolean("required"u8, true);
            }

            if (column.Codes is { } codes)
            {
                json.WriteStartArray("enum"u8);
                foreach (var code in codes)
                {
                    json.WriteStringValue(code);
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
        }

        json.WriteEndObject();
    }
}
