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
    /// Reads and verifies bytes from outside: the envelope must be canonical and whole, the body must be canonical
    /// and the one the envelope vouches for. An unknown kind is no fault, nor are facts that cannot be.
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

        var reason = bytes.SaltedBody.IsEmpty ? null : WrongWith(bytes.SaltedBody.Span, envelope.Value);
        if (reason is not null)
        {
            return Parsed<Entry>.No(reason);
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

    private static Remark? WrongWith(ReadOnlySpan<byte> body, Envelope envelope) =>
        body.Length is <= EntryBytes.SaltLength or > EntryBytes.LongestBody
            ? new Remark(
                "body-length",
                new("entry", envelope.Id),
                new("bytes", body.Length),
                new("allowedBytes", EntryBytes.LongestBody)
            )
        : Digest.Of(body) != envelope.Body
            ? new Remark("body-not-the-one-vouched-for", new Argument("entry", envelope.Id))
        : !CanonicalJson.Is(body[EntryBytes.SaltLength..])
            ? new Remark("body-not-canonical", new Argument("entry", envelope.Id))
        : null;
}
