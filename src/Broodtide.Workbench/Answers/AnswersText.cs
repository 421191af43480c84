using System.Buffers;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Answers;

/// <summary>
/// All that an outlook answers, as one JSON text for machines: the same on every door, so that two doors can be held
/// against each other and a keeper can take the figures elsewhere. Instants are ISO 8601 in UTC; names end with
/// their unit; an interval is its 5, 50 and 95 % points.
/// </summary>
public static class AnswersText
{
    /// <summary>Raised when a name changes its meaning.</summary>
    public const int Version = 1;

    /// <summary>The UTF-8 text.</summary>
    public static byte[] Write(Outlook outlook)
    {
        var output = new ArrayBufferWriter<byte>(16_384);
        using (var json = new Utf8JsonWriter(output, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            json.WriteNumber("version", Version);
            json.WriteString("now", UtcText.Format(outlook.Now));
            json.WriteString("zone", outlook.Zone.Id);
            json.WriteNumber("entries", outlook.House.Account.EntryCount);
            json.WriteNumber("conflicts", outlook.Conflicts.Count);
            json.WriteStartArray("vessels");
            foreach (var ledger in outlook.Ledgers)
            {
                Write(json, outlook, ledger);
            }

            json.WriteEndArray();
            json.WriteStartArray("broods");
            foreach (var forecast in outlook.Forecasts)
            {
                Write(json, outlook, forecast);
            }

            json.WriteEndArray();
            PopulationAnswers.Write(json, outlook);
            SafetyAnswers.Write(json, outlook);
            Due(json, outlook);
            json.WriteEndObject();
        }

        return output.WrittenSpan.ToArray();
    }

    private static void Write(Utf8JsonWriter json, Outlook outlook, VesselLedger ledger)
    {
        json.WriteStartObject();
        json.WriteString("vessel", ledger.Vessel.Value);
        json.WriteString("name", outlook.House.Vessel(ledger.Vessel).Name);
        json.WriteNumber("fill", ledger.FillNumber);
        json.WriteBoolean("ended", ledger.Ended);
        Write(json, "salinityPpt", ledger.SalinityPpt);
        Write(json, "litres", ledger.Litres);
        Write(json, "evaporationMillilitresPerDay", ledger.EvaporationMillilitresPerDay);
        Write(json, "saltGrams", ledger.SaltGrams);
        json.WriteNumber("rows", ledger.Rows.Count);
        json.WriteNumber("rowsThatDoNotFit", ledger.Rows.Count(row => row.Fit is ReadingFit.DoesNotFit));
        if (ledger.Leaving is { } leaving)
        {
            json.WriteStartObject("leavesBand");
            json.WriteNumber("limitPpt", leaving.LimitPpt);
            json.WriteString("earliest", UtcText.Format(leaving.Earliest));
            Write(json, "middle", leaving.Middle);
            Write(json, "latest", leaving.Latest);
            json.WriteEndObject();
        }

        if (ledger.TopUp is { } topUp)
        {
            json.WriteStartObject("topUp");
            json.WriteNumber("eachMillilitres", topUp.Each.Millilitres);
            json.WriteNumber("portions", topUp.Portions);
            Write(json, "afterPpt", topUp.AfterPpt);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Outlook outlook, BroodForecast forecast)
    {
        json.WriteStartObject();
        json.WriteString("brood", forecast.Brood.Value);
        json.WriteString("name", outlook.House.Brood(forecast.Brood).Name);
        json.WriteString("median", UtcText.Format(forecast.Median));
        Write(json, "window50", forecast.Window50);
        Write(json, "window90", forecast.Window90);
        json.WriteNumber("outAlready", forecast.OutAlready.Value);
        json.WriteStartArray("nights");
        foreach (var night in forecast.Nights)
        {
            json.WriteStartObject();
            json.WriteString("evening", NodaTime.Text.LocalDatePattern.Iso.Format(night.Evening));
            json.WriteNumber("probability", night.Chance.Value);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Due(Utf8JsonWriter json, Outlook outlook)
    {
        json.WriteStartArray("due");
        foreach (var item in outlook.Due.Items)
        {
            json.WriteStartObject();
            json.WriteString("key", item.Action.Key);
            json.WriteString("action", item.Action.Code);
            json.WriteString("from", UtcText.Format(item.Action.From));
            json.WriteString("by", UtcText.Format(item.Action.By));
            json.WriteString("reason", item.Action.Reason.Code);
            json.WriteBoolean("next", item.IsNext);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, string name, Interval interval)
    {
        json.WriteStartArray(name);
        json.WriteNumberValue(interval.Low);
        json.WriteNumberValue(interval.Middle);
        json.WriteNumberValue(interval.High);
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, string name, HatchWindow window)
    {
        json.WriteStartArray(name);
        json.WriteStringValue(UtcText.Format(window.From));
        json.WriteStringValue(UtcText.Format(window.To));
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, string name, Instant? instant)
    {
        if (instant is { } known)
        {
            json.WriteString(name, UtcText.Format(known));
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
