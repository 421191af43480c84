using System.Buffers;
using System.Globalization;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>
/// What one side holds, as JSON: an object of replicas, each with its highest number without a gap and the mark of
/// its entries as hex figures.
/// </summary>
public static class HoldingsText
{
    /// <summary>The UTF-8 text.</summary>
    public static byte[] Write(Holdings holdings)
    {
        var output = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(output))
        {
            json.WriteStartObject();
            foreach (var (replica, held) in holdings.Replicas.OrderBy(replica => replica.Key.Value))
            {
                json.WriteStartArray(replica.Value.ToString());
                json.WriteNumberValue(held.Highest);
                json.WriteStringValue(held.Mark.ToString("x16", CultureInfo.InvariantCulture));
                json.WriteEndArray();
            }

            json.WriteEndObject();
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
            var held = new Dictionary<ReplicaId, Held>();
            foreach (var member in document.RootElement.EnumerateObject())
            {
                var pair = member.Value;
                if (
                    !Guid.TryParse(member.Name, out var replica)
                    || pair.GetArrayLength() != 2
                    || !pair[0].TryGetInt64(out var highest)
                    || highest < 0
                    || !ulong.TryParse(
                        pair[1].GetString(),
                        NumberStyles.HexNumber,
                        CultureInfo.InvariantCulture,
                        out var mark
                    )
                )
                {
                    return Parsed<Holdings>.No("holdings-wrong", new Argument("replica", member.Name));
                }

                held[new ReplicaId(replica)] = new Held(highest, mark);
            }

            return Parsed<Holdings>.Of(new Holdings(held));
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return Parsed<Holdings>.No(
                "holdings-not-json",
                new Argument("allowed", "{\"replica\":[highest,\"mark\"]}")
            );
        }
    }
}
