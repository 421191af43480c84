using System.Text.Json;
using Broodtide.Workbench.Safety;

namespace Broodtide.Workbench.Answers;

/// <summary>What the water does to those that live in it, for machines.</summary>
internal static class SafetyAnswers
{
    internal static void Write(Utf8JsonWriter json, Outlook outlook)
    {
        json.WriteStartArray("waters");
        foreach (var ledger in outlook.Ledgers)
        {
            if (outlook.SafetyOf(ledger.Vessel) is { } safety)
            {
                Write(json, safety);
            }
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, VesselSafety safety)
    {
        json.WriteStartObject();
        json.WriteString("vessel", safety.Vessel.Value);
        json.WriteString("level", Code(safety.Level));
        json.WriteStartArray("limits");
        foreach (var limit in safety.Limits)
        {
            json.WriteStartObject();
            json.WriteString("quantity", Code(limit.Limit.Quantity));
            json.WriteNumber("limit", limit.Limit.Value);
            json.WriteBoolean("upper", limit.Limit.IsUpper);
            json.WriteStartArray("now");
            json.WriteNumberValue(limit.Now.Low);
            json.WriteNumberValue(limit.Now.Middle);
            json.WriteNumberValue(limit.Now.High);
            json.WriteEndArray();
            json.WriteNumber("crossedWithin12Hours", limit.CrossedSoon.Value);
            json.WriteNumber("crossedWithin48Hours", limit.CrossedAhead.Value);
            json.WriteString("level", Code(limit.Level));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static string Code<T>(T member)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(member.ToString());
}
