using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>
/// The two byte strings that an entry is, as they came. A hash is always over these bytes.
/// </summary>
/// <param name="Envelope">The canonical bytes of the envelope.</param>
/// <param name="SaltedBody">16 random bytes followed by the canonical body; empty once erased.</param>
public readonly record struct EntryBytes(ReadOnlyMemory<byte> Envelope, ReadOnlyMemory<byte> SaltedBody)
{
    /// <summary>How many random bytes stand before a body, so that an erased body cannot be guessed from its hash.</summary>
    public const int SaltLength = 16;

    /// <summary>Longest body accepted, in bytes, random bytes included.</summary>
    public const int LongestBody = 1_048_576;
}

/// <summary>One entry of the journal, read from its bytes. Its facts are decoded when first asked for.</summary>
public sealed class Entry
{
    private Fact? _fact;

    private Entry(EntryBytes bytes, Envelope envelope, Digest digest)
    {
        Bytes = bytes;
        Envelope = envelope;
        Digest = digest;
    }

    /// <summary>The bytes as they came.</summary>
    public EntryBytes Bytes { get; }

    /// <summary>Everything but the facts.</summary>
    public Envelope Envelope { get; }

    /// <summary>SHA-256 of the envelope's bytes: what tells two entries apart.</summary>
    public Digest Digest { get; }

    /// <summary>Identity, as the writer gave it.</summary>
    public EntryId Id => Envelope.Id;

    /// <summary>Whether the facts are here; they are not once erased.</summary>
    public bool HasBody => !Bytes.SaltedBody.IsEmpty;

    /// <summary>What happened. Never fails: see <see cref="UnknownFact"/>, <see cref="UnreadableFact"/>, <see cref="ErasedFact"/>.</summary>
    public Fact Fact =>
        _fact ??= HasBody
            ? Kinds.Read(Envelope.Kind, Envelope.Version, Bytes.SaltedBody.Span[EntryBytes.SaltLength..])
            : new ErasedFact(Envelope.Kind);

    /// <summary>
    /// Reads and verifies bytes from outside: the envelope must be canonical and whole, the body must be the one
    /// the envelope vouches for. An unknown kind is no fault.
    /// </summary>
    public static Parsed<Entry> Read(EntryBytes bytes)
    {
        var envelope = EnvelopeText.Read(bytes.Envelope.Span);
        if (!envelope.Succeeded)
        {
            return Parsed<Entry>.No(envelope.Reason);
        }

        if (!CanonicalJson.Is(bytes.Envelope.Span))
        {
            return Parsed<Entry>.No("envelope-not-canonical", new Argument("entry", envelope.Value.Id));
        }

        var body = bytes.SaltedBody.Span;
        if (!body.IsEmpty)
        {
            if (body.Length <= EntryBytes.SaltLength || body.Length > EntryBytes.LongestBody)
            {
                return Parsed<Entry>.No(
                    "body-length",
                    new Argument("entry", envelope.Value.Id),
                    new Argument("bytes", body.Length),
                    new Argument("allowedBytes", EntryBytes.LongestBody)
                );
            }

            if (Digest.Of(body) != envelope.Value.Body)
            {
                return Parsed<Entry>.No(
                    "body-not-the-one-vouched-for",
                    new Argument("entry", envelope.Value.Id)
                );
            }
        }

        return Parsed<Entry>.Of(new Entry(bytes, envelope.Value, Digest.Of(bytes.Envelope.Span)));
    }

    /// <summary>
    /// Reads bytes that this store verified when it took them in, with the digest it kept. For speed: nothing is
    /// hashed again.
    /// </summary>
    public static Parsed<Entry> ReadTrusted(EntryBytes bytes, Digest digest)
    {
        var envelope = EnvelopeText.Read(bytes.Envelope.Span);
        return envelope.Succeeded
            ? Parsed<Entry>.Of(new Entry(bytes, envelope.Value, digest))
            : Parsed<Entry>.No(envelope.Reason);
    }

    /// <summary>The same entry without its facts.</summary>
    public Entry Erased() => HasBody ? new(new(Bytes.Envelope, default), Envelope, Digest) : this;
}
