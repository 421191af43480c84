using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Sharing;

/// <summary>What the owner is told of sharing, and asks, as JSON.</summary>
public static class OwnersText
{
    /// <summary>How sharing stands: held back, stores, remarks on entries, refusals, names; read as <see cref="SharingSeen"/>.</summary>
    public static byte[] Write(GateState state) =>
        SharingText.Json(json =>
        {
            if (state.RefillUntil is { } until)
            {
                json.WriteString("refillUntil"u8, UtcText.Format(until));
            }

            All(json, "heldBack", state.HeldBack, WriteHeldBack);
            All(json, "stores", state.Stores, WriteStore);
            All(json, "marks", state.Marks, WriteMark);
            All(json, "refusals", state.Refusals, WriteRefusal);
            json.WriteStartObject("names"u8);
            foreach (var person in state.Names.GroupBy(one => one.Person))
            {
                json.WriteString(person.Key.Value.ToString(), person.Last().Name);
            }

            json.WriteEndObject();
        });

    /// <summary>One number by its name.</summary>
    public static byte[] Write(string name, long number) =>
        SharingText.Json(json => json.WriteNumber(name, number));

    /// <summary>The digests of entries: <c>{"entries":["64 hex figures"]}</c>.</summary>
    public static Parsed<IReadOnlyList<Digest>> ReadEntries(ReadOnlyMemory<byte> bytes) =>
        SharingText.Read(
            bytes,
            root =>
            {
                var found = new List<Digest>();
                foreach (var text in root.GetProperty("entries"u8).EnumerateArray())
                {
                    if (!Digest.TryParse(Encoding.UTF8.GetBytes(text.GetString() ?? ""), out var digest))
                    {
                        return Parsed<IReadOnlyList<Digest>>.No(SharingText.NotUnderstood);
                    }

                    found.Add(digest);
                }

                return Parsed<IReadOnlyList<Digest>>.Of(found);
            }
        );

    /// <summary>The names of stores: <c>{"stores":["replica"]}</c>.</summary>
    public static Parsed<IReadOnlyList<ReplicaId>> ReadStores(ReadOnlyMemory<byte> bytes) =>
        SharingText.Read(
            bytes,
            root =>
                Parsed<IReadOnlyList<ReplicaId>>.Of([
                    .. root.GetProperty("stores"u8)
                        .EnumerateArray()
                        .Select(one => new ReplicaId(one.GetGuid())),
                ])
        );

    /// <summary>How many hours a refill is open: <c>{"hours":24}</c>; the usual time if not said.</summary>
    public static Parsed<NodaTime.Duration> ReadRefill(ReadOnlyMemory<byte> bytes) =>
        SharingText.Read(
            bytes,
            root =>
                !root.TryGetProperty("hours"u8, out var hours)
                    ? Parsed<NodaTime.Duration>.Of(OwnersGate.UsualRefill)
                : Math.Abs(hours.GetDouble()) < 1e6
                    ? Parsed<NodaTime.Duration>.Of(NodaTime.Duration.FromHours(hours.GetDouble()))
                : Parsed<NodaTime.Duration>.No(SharingText.NotUnderstood)
        );

    private static void All<T>(
        Utf8JsonWriter json,
        string name,
        IReadOnlyList<T> all,
        Action<Utf8JsonWriter, T> write
    )
    {
        json.WriteStartArray(name);
        foreach (var one in all)
        {
            json.WriteStartObject();
            write(json, one);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteHeldBack(Utf8JsonWriter json, HeldBack held)
    {
        json.WriteString("digest"u8, held.Digest.ToString());
        json.WriteString("entry"u8, held.Id.Value);
        json.WriteString("replica"u8, held.Replica.Value);
        json.WriteNumber("sequence"u8, held.Sequence);
        json.WriteString("person"u8, held.Person.Value);
        json.WriteString("at"u8, UtcText.Format(held.At));
        json.WriteString("reason"u8, held.Reason);
        json.WriteString("envelope"u8, held.Bytes.Envelope.Span);
        if (!held.Bytes.SaltedBody.IsEmpty)
        {
            json.WriteString("body"u8, held.Bytes.SaltedBody.Span[EntryBytes.SaltLength..]);
        }
    }

    private static void WriteStore(Utf8JsonWriter json, StoreState store)
    {
        json.WriteString("replica"u8, store.Replica.Value);
        json.WriteNumber("held"u8, store.Held);
        json.WriteBoolean("revoked"u8, store.IsRevoked);
        if (store.Person is { } person)
        {
            json.WriteString("person"u8, person.Value);
        }

        if (store.Report is { } report)
        {
            json.WriteNumber("waiting"u8, report.Waiting);
            json.WriteString("reportedAt"u8, UtcText.Format(report.At));
            json.WriteString("reportedBy"u8, report.Person.Value);
            json.WriteNumber("secondsAhead"u8, report.SecondsAhead);
        }
    }

    private static void WriteMark(Utf8JsonWriter json, EntryMark mark)
    {
        json.WriteString("digest"u8, mark.Entry.ToString());
        json.WriteString("replica"u8, mark.Replica.Value);
        json.WriteString("sort"u8, mark.Sort is MarkSort.Brought ? "brought" : "clock-far-off");
        json.WriteString("person"u8, mark.Person.Value);
        json.WriteString("at"u8, UtcText.Format(mark.At));
        json.WriteNumber("seconds"u8, mark.Seconds);
    }

    private static void WriteRefusal(Utf8JsonWriter json, Refusal refusal)
    {
        json.WriteString("at"u8, UtcText.Format(refusal.At));
        json.WriteString("person"u8, refusal.Person.Value);
        json.WriteString("name"u8, refusal.Name);
        json.WriteString("code"u8, refusal.Code);
        json.WriteString("details"u8, refusal.Details);
    }
}
