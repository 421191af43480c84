using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// What phone and house say to each other, as bytes. Small things are one JSON object; entries are packed, and are
/// understood as the lines of a file of the journal too.
/// </summary>
internal static class SharingText
{
    public static byte[] Meeting(Holdings holdings, PhoneReport report) =>
        Json(json =>
        {
            json.WritePropertyName("holdings"u8);
            HoldingsText.Write(json, holdings);
            Write(json, report);
        });

    public static byte[] Lacking(Holdings holdings, FetchedUpTo? after) =>
        Json(json =>
        {
            json.WritePropertyName("holdings"u8);
            HoldingsText.Write(json, holdings);
            if (after is { } place)
            {
                json.WriteStartArray("after"u8);
                json.WriteStringValue(place.Replica.Value);
                json.WriteNumberValue(place.Sequence);
                json.WriteEndArray();
            }
        });

    public static byte[] Giving(IReadOnlyList<Entry> entries, PhoneReport report) =>
        [.. Json(json => Write(json, report)), (byte)'\n', .. EntryBatch.Pack(entries)];

    public static byte[] Text(Welcome welcome) =>
        Json(json =>
        {
            json.WritePropertyName("holdings"u8);
            HoldingsText.Write(json, welcome.Holdings);
            Write(json, "mine", welcome.Mine);
            Write(json, "revoked", welcome.Revoked);
            json.WriteString("person"u8, welcome.Person.Value);
            json.WriteNumber("role"u8, (int)welcome.Role);
            json.WriteNumber("lacking"u8, welcome.Lacking);
            json.WriteNumber("heldBack"u8, welcome.HeldBack);
            json.WriteNumber("secondsAhead"u8, welcome.SecondsAhead);
            if (welcome.RefillUntil is { } until)
            {
                json.WriteString("refillUntil"u8, UtcText.Format(until));
            }
        });

    public static byte[] Text(Accepted accepted) =>
        Json(json =>
        {
            json.WriteNumber("new"u8, accepted.New);
            json.WriteNumber("known"u8, accepted.Known);
            json.WriteNumber("heldBack"u8, accepted.HeldBack);
        });

    public static byte[] Text(Remark reason) =>
        Json(json =>
        {
            json.WriteString("code"u8, reason.Code);
            json.WriteStartObject("arguments"u8);
            foreach (var argument in reason.Arguments)
            {
                switch (argument.Value)
                {
                    case int or long:
                        json.WriteNumber(
                            argument.Name,
                            Convert.ToInt64(argument.Value, CultureInfo.InvariantCulture)
                        );
                        break;
                    case double number:
                        json.WriteNumber(argument.Name, number);
                        break;
                    default:
                        json.WriteString(argument.Name, Plain(argument.Value));
                        break;
                }
            }

            json.WriteEndObject();
        });

    public static Parsed<(Holdings Holdings, PhoneReport Report)> ReadMeeting(ReadOnlyMemory<byte> bytes) =>
        Read(
            bytes,
            root =>
                HoldingsText.Read(Member(root, "holdings")) is var holdings && !holdings.Succeeded
                    ? Parsed<(Holdings, PhoneReport)>.No(holdings.Reason)
                    : Parsed<(Holdings, PhoneReport)>.Of((holdings.Value, ReportOf(root)))
        );

    public static Parsed<(Holdings Holdings, FetchedUpTo? After)> ReadLacking(ReadOnlyMemory<byte> bytes) =>
        Read(
            bytes,
            root =>
            {
                var holdings = HoldingsText.Read(Member(root, "holdings"));
                return !holdings.Succeeded
                    ? Parsed<(Holdings, FetchedUpTo?)>.No(holdings.Reason)
                    : Parsed<(Holdings, FetchedUpTo?)>.Of(
                        (
                            holdings.Value,
                            root.TryGetProperty("after"u8, out var after)
                                ? new FetchedUpTo(new ReplicaId(after[0].GetGuid()), after[1].GetInt64())
                                : null
                        )
                    );
            }
        );

    public static Parsed<(IReadOnlyList<Entry> Entries, PhoneReport Report)> ReadGiving(
        ReadOnlyMemory<byte> bytes
    )
    {
        var end = bytes.Span.IndexOf((byte)'\n');
        if (end < 0)
        {
            return Parsed<(IReadOnlyList<Entry>, PhoneReport)>.No(NotUnderstood);
        }

        var report = Read(bytes[..end], root => Parsed<PhoneReport>.Of(ReportOf(root)));
        if (!report.Succeeded)
        {
            return Parsed<(IReadOnlyList<Entry>, PhoneReport)>.No(report.Reason);
        }

        var entries = ReadEntries(bytes[(end + 1)..]);
        return entries.Succeeded
            ? Parsed<(IReadOnlyList<Entry>, PhoneReport)>.Of((entries.Value, report.Value))
            : Parsed<(IReadOnlyList<Entry>, PhoneReport)>.No(entries.Reason);
    }

    public static Parsed<IReadOnlyList<Entry>> ReadEntries(ReadOnlyMemory<byte> bytes) =>
        EntryBatch.Is(bytes.Span)
            ? EntryBatch.Read(bytes)
            : JournalLines.Read(
                Encoding.UTF8.GetString(bytes.Span).Split('\n', StringSplitOptions.RemoveEmptyEntries)
            );

    public static Parsed<Welcome> ReadWelcome(ReadOnlyMemory<byte> bytes) =>
        Read(
            bytes,
            root =>
            {
                var holdings = HoldingsText.Read(Member(root, "holdings"));
                return !holdings.Succeeded
                    ? Parsed<Welcome>.No(holdings.Reason)
                    : Parsed<Welcome>.Of(
                        new Welcome(
                            holdings.Value,
                            Replicas(Member(root, "mine")),
                            Replicas(Member(root, "revoked")),
                            new PersonId(Member(root, "person").GetGuid()),
                            (Role)Member(root, "role").GetInt32(),
                            Member(root, "lacking").GetInt64(),
                            Member(root, "heldBack").GetInt32(),
                            InstantOf(root, "refillUntil"),
                            Member(root, "secondsAhead").GetInt64()
                        )
                    );
            }
        );

    public static Parsed<Accepted> ReadAccepted(ReadOnlyMemory<byte> bytes) =>
        Read(
            bytes,
            root =>
                Parsed<Accepted>.Of(
                    new Accepted(
                        Member(root, "new").GetInt32(),
                        Member(root, "known").GetInt32(),
                        Member(root, "heldBack").GetInt32()
                    )
                )
        );

    /// <summary>A refusal read back; its arguments are texts and numbers.</summary>
    public static Remark ReadRefusal(ReadOnlyMemory<byte> bytes)
    {
        var read = Read(
            bytes,
            root =>
                Parsed<Remark>.Of(
                    new Remark(
                        Member(root, "code").GetString()!,
                        [
                            .. Member(root, "arguments")
                                .EnumerateObject()
                                .Select(argument => new Argument(
                                    argument.Name,
                                    argument.Value.ValueKind is JsonValueKind.Number
                                        ? argument.Value.GetDouble()
                                        : argument.Value.GetString()!
                                )),
                        ]
                    )
                )
        );
        return read.Succeeded ? read.Value : NotUnderstood;
    }

    public static Remark NotUnderstood { get; } = new("sync-not-understood");

    private static PhoneReport ReportOf(JsonElement root)
    {
        var waiting = new Dictionary<ReplicaId, int>();
        if (root.TryGetProperty("waiting"u8, out var counts))
        {
            foreach (var count in counts.EnumerateObject())
            {
                waiting[new ReplicaId(Guid.Parse(count.Name))] = Math.Max(0, count.Value.GetInt32());
            }
        }

        return new PhoneReport(waiting, InstantOf(root, "now"));
    }

    private static Instant? InstantOf(JsonElement root, string member) =>
        root.TryGetProperty(member, out var text)
        && UtcText.TryParse(Encoding.UTF8.GetBytes(text.GetString() ?? ""), out var instant)
            ? instant
            : null;

    private static HashSet<ReplicaId> Replicas(JsonElement array) =>
        [.. array.EnumerateArray().Select(one => new ReplicaId(one.GetGuid()))];

    private static JsonElement Member(JsonElement root, string name) => root.GetProperty(name);

    public static Parsed<T> Read<T>(ReadOnlyMemory<byte> bytes, Func<JsonElement, Parsed<T>> read)
        where T : notnull
    {
        try
        {
            using var document = JsonDocument.Parse(bytes);
            return read(document.RootElement);
        }
        catch (Exception e)
            when (e
                    is JsonException
                        or InvalidOperationException
                        or KeyNotFoundException
                        or FormatException
                        or IndexOutOfRangeException
            )
        {
            return Parsed<T>.No(NotUnderstood);
        }
    }

    private static void Write(Utf8JsonWriter json, PhoneReport report)
    {
        json.WriteStartObject("waiting"u8);
        foreach (var (replica, waiting) in report.Waiting)
        {
            json.WriteNumber(replica.Value.ToString(), waiting);
        }

        json.WriteEndObject();
        if (report.Now is { } now)
        {
            json.WriteString("now"u8, UtcText.Format(now));
        }
    }

    private static void Write(Utf8JsonWriter json, string name, IEnumerable<ReplicaId> replicas)
    {
        json.WriteStartArray(name);
        foreach (var replica in replicas)
        {
            json.WriteStringValue(replica.Value);
        }

        json.WriteEndArray();
    }

    private static string Plain(object value) =>
        value switch
        {
            EntryId entry => entry.Value.ToString(),
            ReplicaId replica => replica.Value.ToString(),
            Instant instant => UtcText.Format(instant),
            _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
        };

    public static byte[] Json(Action<Utf8JsonWriter> write)
    {
        var output = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(output))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }

        return output.WrittenSpan.ToArray();
    }
}
