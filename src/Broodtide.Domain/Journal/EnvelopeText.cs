using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>Writes an envelope as canonical bytes and reads one back. Unknown members are passed over.</summary>
public static class EnvelopeText
{
    /// <summary>Longest envelope accepted, in bytes: far above any that is written here.</summary>
    public const int LongestBytes = 16_384;

    /// <summary>Longest name of a kind, in characters.</summary>
    public const int LongestKind = 64;

    // Letters as they are, as the canonical form wants them.
    private static readonly JsonWriterOptions Plain = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The canonical bytes (RFC 8785).</summary>
    public static byte[] Write(Envelope envelope)
    {
        var output = new ArrayBufferWriter<byte>(640);
        using (var json = new Utf8JsonWriter(output, Plain))
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

        if (EnvelopeGlance.Read(utf8) is { } seen)
        {
            return Parsed<Envelope>.Of(seen);
        }

        return ReadAny(utf8);
    }

    /// <summary>The same without a glance before: what a glance is held against.</summary>
    internal static Parsed<Envelope> ReadAny(ReadOnlySpan<byte> utf8)
    {
        try
        {
            var reader = new Utf8JsonReader(utf8);
            return EnvelopeMembers.Read(ref reader);
        }
        catch (JsonException broken)
        {
            return Parsed<Envelope>.No(
                "envelope-not-json",
                new Argument("byte", broken.BytePositionInLine ?? 0)
            );
        }
        catch (InvalidOperationException)
        {
            // A string that is no UTF-8, or holds half of a surrogate pair.
            return Wrong("envelope");
        }
    }

    internal static Parsed<Envelope> Wrong(string member) =>
        Parsed<Envelope>.No("envelope-member-wrong", new Argument("member", member));

    private static ReadOnlySpan<byte> NameOf(CorrectionKind kind) =>
        kind switch
        {
            CorrectionKind.Replaces => "replaces"u8,
            CorrectionKind.Retracts => "retracts"u8,
            CorrectionKind.Erases => "erases"u8,
            _ => throw new ArgumentOutOfRangeException(nameof(kind)),
        };
}
