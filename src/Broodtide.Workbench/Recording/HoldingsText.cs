using System.Buffers;
using System.Globalization;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>
/// What one side holds, as JSON: an object of replicas, each with its highest number without a gap, the mark of
/// its entries up to there as hex figures, and the number and the mark of all its entries.
/// </summary>
public static class HoldingsText
{
    /// <summary>The UTF-8 text.</summary>
    public static byte[] Write(Holdings holdings)
    {
        var output = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(output))
        {
            Write(json, holdings);
        }

        return output.WrittenSpan.ToArray();
    }

    /// <summary>Reads it back; the reason says what is wrong.</summary>
    public static Parsed<Holdings> Read(ReadOnlySpan<byte> utf8)
    {
        try
        {
            var reader = new Utf8JsonReader(utf8);
            using var document = JsonDocument.ParseValue(ref reader);
            return Read(document.RootElement);
        }
        catch (JsonException)
        {
            return NotJson();
        }
    }

    internal static void Write(Utf8JsonWriter json, Holdings holdings)
    {
        json.WriteStartObject();
        foreach (var (replica, held) in holdings.Replicas.OrderBy(replica => replica.Key.Value))
        {
            json.WriteStartArray(replica.Value.ToString());
            json.WriteNumberValue(held.Highest);
            json.WriteStringValue(held.Mark.ToString("x16", CultureInfo.InvariantCulture));
            json.WriteNumberValue(held.Count);
            json.WriteStringValue(held.Whole.ToString("x16", CultureInfo.InvariantCulture));
            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    internal static Parsed<Holdings> Read(JsonElement root)
    {
        if (root.ValueKind is not JsonValueKind.Object)
        {
            return NotJson();
        }

        var holdings = new Dictionary<ReplicaId, Held>();
        foreach (var member in root.EnumerateObject())
        {
            if (!Guid.TryParse(member.Name, out var replica) || HeldOf(member.Value) is not { } held)
            {
                return Parsed<Holdings>.No("holdings-wrong", new Argument("replica", member.Name));
            }

            holdings[new ReplicaId(replica)] = held;
        }

        return Parsed<Holdings>.Of(new Holdings(holdings));
    }

    // Two members from an older app, which did not say what lies behind a gap.
    private static Held? HeldOf(JsonElement array) =>
        array.ValueKind is not JsonValueKind.Array || array.GetArrayLength() is not (2 or 4) ? null
        : Number(array[0]) is not { } highest || Mark(array[1]) is not { } mark ? null
        : array.GetArrayLength() == 2 ? new Held(highest, mark)
        : Number(array[2]) is { } count && Mark(array[3]) is { } whole
            ? new Held(highest, mark) { Count = count, Whole = whole }
        : null;

    private static long? Number(JsonElement element) =>
        element.ValueKind is JsonValueKind.Number && element.TryGetInt64(out var number) && number >= 0
            ? number
            : null;

    private static ulong? Mark(JsonElement element) =>
        element.ValueKind is JsonValueKind.String
        && ulong.TryParse(
            element.GetString(),
            NumberStyles.HexNumber,
            CultureInfo.InvariantCulture,
            out var mark
        )
            ? mark
            : null;

    private static Parsed<Holdings> NotJson() =>
        Parsed<Holdings>.No(
            "holdings-not-json",
            new Argument("allowed", "{\"replica\":[highest,\"mark\",count,\"mark of all\"]}")
        );
}
