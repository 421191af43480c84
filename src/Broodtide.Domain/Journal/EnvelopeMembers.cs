using System.Text.Json;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>What has been read of an envelope so far, member by member.</summary>
internal struct EnvelopeMembers
{
    private EntryId? _id;
    private ReplicaId? _replica;
    private long? _sequence;
    private Author? _author;
    private Instant? _written;
    private string? _zone;
    private Happened? _happened;
    private string? _kind;
    private long? _version;
    private Correction? _correction;
    private Digest? _previous;
    private Digest? _body;

    public static Parsed<Envelope> Read(ref Utf8JsonReader reader)
    {
        var found = default(EnvelopeMembers);
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return EnvelopeText.Wrong("envelope");
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var member = SharedText.From(ref reader);
            if (!found.Take(ref reader, member))
            {
                return EnvelopeText.Wrong(member);
            }
        }

        return reader.TokenType == JsonTokenType.EndObject && !reader.Read()
            ? found.Whole()
            : EnvelopeText.Wrong("envelope");
    }

    private bool Take(ref Utf8JsonReader reader, string member)
    {
        switch (member)
        {
            case "id":
                return (_id = Identity<EntryId>(ref reader)) is not null;
            case "replica":
                return (_replica = Identity<ReplicaId>(ref reader)) is not null;
            case "seq":
                return (_sequence = Number(ref reader, long.MaxValue)) is not null;
            case "version":
                return (_version = Number(ref reader, int.MaxValue)) is not null;
            case "kind":
                return (_kind = Text(ref reader)) is { Length: > 0 and <= EnvelopeText.LongestKind };
            case "happened":
                return (_happened = Interval(ref reader)) is not null;
            case "author":
                return (_author = Writer(ref reader)) is not null;
            case "written":
                return TakeWritten(ref reader);
            case "previous":
                return (_previous = Hash(ref reader)) is not null;
            case "body":
                return (_body = Hash(ref reader)) is not null;
            case "replaces":
                return Aim(ref reader, CorrectionKind.Replaces);
            case "retracts":
                return Aim(ref reader, CorrectionKind.Retracts);
            case "erases":
                return Aim(ref reader, CorrectionKind.Erases);
            default:
                return Skip(ref reader);
        }
    }

    private readonly Parsed<Envelope> Whole() =>
        _id is not { } id ? EnvelopeText.Wrong("id")
        : _replica is not { } replica ? EnvelopeText.Wrong("replica")
        : _sequence is not { } sequence ? EnvelopeText.Wrong("seq")
        : _author is null ? EnvelopeText.Wrong("author")
        : _written is not { } written || _zone is null ? EnvelopeText.Wrong("written")
        : _happened is not { } happened ? EnvelopeText.Wrong("happened")
        : _kind is null ? EnvelopeText.Wrong("kind")
        : _version is not { } version ? EnvelopeText.Wrong("version")
        : _body is not { } body ? EnvelopeText.Wrong("body")
        : (sequence == 1) != (_previous is null) ? EnvelopeText.Wrong("previous")
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
                Version = (int)version,
                Correction = _correction,
                Previous = _previous,
                Body = body,
            }
        );

    // An entry does one thing to one other entry.
    private bool Aim(ref Utf8JsonReader reader, CorrectionKind kind)
    {
        if (_correction is not null || Identity<EntryId>(ref reader) is not { } target)
        {
            return false;
        }

        _correction = new Correction(kind, target);
        return true;
    }

    private bool TakeWritten(ref Utf8JsonReader reader)
    {
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var taken = SharedText.From(ref reader) switch
            {
                "at" => (_written = Moment(ref reader)) is not null,
                "zone" => (_zone = Text(ref reader)) is not null,
                _ => Skip(ref reader),
            };
            if (!taken)
            {
                return false;
            }
        }

        return _written is not null && _zone is not null;
    }

    private static Author? Writer(ref Utf8JsonReader reader)
    {
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return null;
        }

        string? name = null;
        string? version = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var taken = SharedText.From(ref reader) switch
            {
                "name" => (name = Text(ref reader)) is not null,
                "version" => (version = Text(ref reader)) is not null,
                _ => Skip(ref reader),
            };
            if (!taken)
            {
                return null;
            }
        }

        return name is null ? null : new Author(name, version);
    }

    private static Happened? Interval(ref Utf8JsonReader reader) =>
        reader.Read()
        && reader.TokenType == JsonTokenType.StartArray
        && Moment(ref reader) is { } earliest
        && Moment(ref reader) is { } latest
        && latest >= earliest
        && reader.Read()
        && reader.TokenType == JsonTokenType.EndArray
            ? Happened.Between(earliest, latest)
            : null;

    private static bool Skip(ref Utf8JsonReader reader)
    {
        reader.Read();
        reader.Skip();
        return true;
    }

    private static string? Text(ref Utf8JsonReader reader) =>
        reader.Read() && reader.TokenType == JsonTokenType.String ? SharedText.From(ref reader) : null;

    private static long? Number(ref Utf8JsonReader reader, long highest) =>
        reader.Read()
        && reader.TokenType == JsonTokenType.Number
        && reader.TryGetInt64(out var number)
        && number >= 1
        && number <= highest
            ? number
            : null;

    private static TId? Identity<TId>(ref Utf8JsonReader reader)
        where TId : struct, IIdentity<TId> =>
        reader.Read() && reader.TokenType == JsonTokenType.String && reader.TryGetGuid(out var id)
            ? TId.From(id)
            : null;

    private static Instant? Moment(ref Utf8JsonReader reader) =>
        reader.Read()
        && reader.TokenType == JsonTokenType.String
        && UtcText.TryParse(reader.ValueSpan, out var instant)
            ? instant
            : null;

    private static Digest? Hash(ref Utf8JsonReader reader) =>
        reader.Read()
        && reader.TokenType == JsonTokenType.String
        && Digest.TryParse(reader.ValueSpan, out var digest)
            ? digest
            : null;
}
