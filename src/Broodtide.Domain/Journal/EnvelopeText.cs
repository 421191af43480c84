using System.Buffers;
using System.Text;
using System.Text.Json;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>Writes an envelope as canonical bytes and reads one back. Unknown members are passed over.</summary>
public static class EnvelopeText
{
    /// <summary>Longest envelope accepted, in bytes: far above any that is written here.</summary>
    public const int LongestBytes = 16_384;

    /// <summary>The canonical bytes (RFC 8785).</summary>
    public static byte[] Write(Envelope envelope)
    {
        var output = new ArrayBufferWriter<byte>(640);
        using (var json = new Utf8JsonWriter(output))
        {
            json.WriteStartObject();
            json.WriteStartObject("author"u8);
            json.WriteString("name"u8, envelope.Author.Name);
            if (envelope.Author.Version is { } version)
            {
                json.WriteString("version"u8, version);
            }

            json.WriteEndObject();
            json.WriteString("body"u8, envelope.Body.ToString());
            json.WriteStartArray("happened"u8);
            json.WriteStringValue(UtcText.Format(envelope.Happened.Earliest));
            json.WriteStringValue(UtcText.Format(envelope.Happened.Latest));
            json.WriteEndArray();
            json.WriteString("id"u8, envelope.Id.Value);
            json.WriteString("kind"u8, envelope.Kind);
            if (envelope.Previous is { } previous)
            {
                json.WriteString("previous"u8, previous.ToString());
            }

            if (envelope.Correction is { } correction)
            {
                json.WriteString(NameOf(correction.Kind), correction.Target.Value);
            }

            json.WriteString("replica"u8, envelope.Replica.Value);
            json.WriteNumber("seq"u8, envelope.Sequence);
            json.WriteNumber("version"u8, envelope.Version);
            json.WriteStartObject("written"u8);
            json.WriteString("at"u8, UtcText.Format(envelope.Written));
            json.WriteString("zone"u8, envelope.Zone);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        return CanonicalJson.From(output.WrittenSpan);
    }

    /// <summary>Reads an envelope; the reason names the member that is missing or wrong.</summary>
    public static Parsed<Envelope> Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > LongestBytes)
        {
            return Parsed<Envelope>.No(
                "envelope-too-long",
                new Argument("bytes", utf8.Length),
                new Argument("allowedBytes", LongestBytes)
            );
        }

        var found = default(Members);
        try
        {
            var reader = new Utf8JsonReader(utf8);
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            {
                return Wrong("envelope");
            }

            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                if (!found.Take(ref reader, out var bad))
                {
                    return Wrong(bad);
                }
            }

            if (reader.TokenType != JsonTokenType.EndObject || reader.Read())
            {
                return Wrong("envelope");
            }
        }
        catch (JsonException broken)
        {
            return Parsed<Envelope>.No(
                "envelope-not-json",
                new Argument("byte", broken.BytePositionInLine ?? 0)
            );
        }
        catch (Exception e) when (e is InvalidOperationException or FormatException)
        {
            return Wrong("envelope");
        }

        return found.Make();
    }

    internal static ReadOnlySpan<byte> NameOf(CorrectionKind kind) =>
        kind switch
        {
            CorrectionKind.Replaces => "replaces"u8,
            CorrectionKind.Retracts => "retracts"u8,
            _ => "erases"u8,
        };

    private static Parsed<Envelope> Wrong(string member) =>
        Parsed<Envelope>.No("envelope-member-wrong", new Argument("member", member));

    // What has been read so far. Names, kinds and zones repeat from entry to entry, so their texts are shared.
    private struct Members
    {
        private EntryId? _id;
        private ReplicaId? _replica;
        private long? _sequence;
        private Author? _author;
        private Instant? _written;
        private string? _zone;
        private Happened? _happened;
        private string? _kind;
        private int? _version;
        private Correction? _correction;
        private Digest? _previous;
        private Digest? _body;

        public bool Take(ref Utf8JsonReader reader, out string bad)
        {
            bad = "";
            if (reader.ValueTextEquals("id"u8))
            {
                bad = "id";
                return Identity(ref reader, out var id) && (_id = new(id)) is not null;
            }

            if (reader.ValueTextEquals("replica"u8))
            {
                bad = "replica";
                return Identity(ref reader, out var id) && (_replica = new(id)) is not null;
            }

            if (reader.ValueTextEquals("seq"u8))
            {
                bad = "seq";
                return reader.Read()
                    && reader.TokenType == JsonTokenType.Number
                    && reader.TryGetInt64(out var number)
                    && number >= 1
                    && (_sequence = number) is not null;
            }

            if (reader.ValueTextEquals("version"u8))
            {
                bad = "version";
                return reader.Read()
                    && reader.TokenType == JsonTokenType.Number
                    && reader.TryGetInt32(out var number)
                    && number >= 1
                    && (_version = number) is not null;
            }

            if (reader.ValueTextEquals("kind"u8))
            {
                bad = "kind";
                return Text(ref reader, out _kind) && _kind.Length is > 0 and <= 64;
            }

            if (reader.ValueTextEquals("happened"u8))
            {
                bad = "happened";
                return TakeHappened(ref reader);
            }

            if (reader.ValueTextEquals("author"u8))
            {
                bad = "author";
                return TakeAuthor(ref reader);
            }

            if (reader.ValueTextEquals("written"u8))
            {
                bad = "written";
                return TakeWritten(ref reader);
            }

            if (reader.ValueTextEquals("previous"u8))
            {
                bad = "previous";
                return Hash(ref reader, out _previous);
            }

            if (reader.ValueTextEquals("body"u8))
            {
                bad = "body";
                return Hash(ref reader, out _body);
            }

            for (var kind = CorrectionKind.Replaces; kind <= CorrectionKind.Erases; kind++)
            {
                if (reader.ValueTextEquals(NameOf(kind)))
                {
                    bad = Encoding.UTF8.GetString(NameOf(kind));
                    // An entry does one thing to one other entry.
                    return _correction is null
                        && Identity(ref reader, out var target)
                        && (_correction = new(kind, new(target))) is not null;
                }
            }

            reader.Read();
            reader.Skip();
            return true;
        }

        public readonly Parsed<Envelope> Make() =>
            _id is not { } id ? Wrong("id")
            : _replica is not { } replica ? Wrong("replica")
            : _sequence is not { } sequence ? Wrong("seq")
            : _author is null ? Wrong("author")
            : _written is not { } written || _zone is null ? Wrong("written")
            : _happened is not { } happened ? Wrong("happened")
            : _kind is null ? Wrong("kind")
            : _version is not { } version ? Wrong("version")
            : _body is not { } body ? Wrong("body")
            : sequence > 1 == _previous is null ? Wrong("previous")
            : Parsed<Envelope>.Of(
                new Envelope
                {
                    Id = id,
                    Replica = replica,
                    Sequence = sequence,
                    Author = _author,
                    Written = written,
                    Zone = _zone,
                    Happened = happened,
                    Kind = _kind,
                    Version = version,
                    Correction = _correction,
                    Previous = _previous,
                    Body = body,
                }
            );

        private bool TakeHappened(ref Utf8JsonReader reader)
        {
            if (
                !reader.Read()
                || reader.TokenType != JsonTokenType.StartArray
                || !Moment(ref reader, out var earliest)
                || !Moment(ref reader, out var latest)
                || latest < earliest
                || !reader.Read()
                || reader.TokenType != JsonTokenType.EndArray
            )
            {
                return false;
            }

            _happened = Happened.Between(earliest, latest);
            return true;
        }

        private bool TakeAuthor(ref Utf8JsonReader reader)
        {
            string? name = null;
            string? version = null;
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            {
                return false;
            }

            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                if (reader.ValueTextEquals("name"u8))
                {
                    if (!Text(ref reader, out name))
                    {
                        return false;
                    }
                }
                else if (reader.ValueTextEquals("version"u8))
                {
                    if (!Text(ref reader, out version))
                    {
                        return false;
                    }
                }
                else
                {
                    reader.Read();
                    reader.Skip();
                }
            }

            _author = name is null ? null : new Author(name, version);
            return _author is not null;
        }

        private bool TakeWritten(ref Utf8JsonReader reader)
        {
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            {
                return false;
            }

            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                if (reader.ValueTextEquals("at"u8))
                {
                    if (!Moment(ref reader, out var at))
                    {
                        return false;
                    }

                    _written = at;
                }
                else if (reader.ValueTextEquals("zone"u8))
                {
                    if (!Text(ref reader, out _zone))
                    {
                        return false;
                    }
                }
                else
                {
                    reader.Read();
                    reader.Skip();
                }
            }

            return _written is not null && _zone is not null;
        }

        private static bool Text(ref Utf8JsonReader reader, out string text)
        {
            text = "";
            if (!reader.Read() || reader.TokenType != JsonTokenType.String)
            {
                return false;
            }

            text = SharedText.From(ref reader);
            return true;
        }

        private static bool Identity(ref Utf8JsonReader reader, out Guid id)
        {
            id = default;
            return reader.Read() && reader.TokenType == JsonTokenType.String && reader.TryGetGuid(out id);
        }

        private static bool Moment(ref Utf8JsonReader reader, out Instant instant)
        {
            instant = default;
            return reader.Read()
                && reader.TokenType == JsonTokenType.String
                && UtcText.TryParse(reader.ValueSpan, out instant);
        }

        private static bool Hash(ref Utf8JsonReader reader, out Digest? digest)
        {
            digest = null;
            if (
                !reader.Read()
                || reader.TokenType != JsonTokenType.String
                || !Digest.TryParse(reader.ValueSpan, out var found)
            )
            {
                return false;
            }

            digest = found;
            return true;
        }
    }
}
