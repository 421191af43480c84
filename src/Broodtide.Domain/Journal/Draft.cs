using Broodtide.Domain.Keeping;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// An entry that is not written yet: everything that its writer decides. The store adds its own name, the running
/// number and the hash of the entry before.
/// </summary>
/// <param name="Id">Identity, made by the door (UUID version 7).</param>
/// <param name="Author">Who writes.</param>
/// <param name="Written">The device's clock.</param>
/// <param name="Zone">IANA name of the time zone.</param>
/// <param name="Happened">When it happened.</param>
/// <param name="Fact">What happened.</param>
/// <param name="Correction">What it corrects, if it is a correction.</param>
public sealed record Draft(
    EntryId Id,
    Author Author,
    Instant Written,
    string Zone,
    Happened Happened,
    Fact Fact,
    Correction? Correction = null
)
{
    /// <summary>
    /// Makes the entry. <paramref name="salt"/> is 16 bytes of a cryptographic random source, never used twice.
    /// </summary>
    /// <param name="replica">The store that writes.</param>
    /// <param name="sequence">Its next running number, from 1.</param>
    /// <param name="previous">Digest of its entry before; none for the first.</param>
    /// <param name="salt">16 random bytes.</param>
    /// <exception cref="ArgumentException">
    /// The fact is impossible or does not go with the correction, a text or a time is too long or too far away for
    /// an envelope, or the salt has not 16 bytes.
    /// </exception>
    public Entry Seal(ReplicaId replica, long sequence, Digest? previous, ReadOnlySpan<byte> salt)
    {
        if (salt.Length != EntryBytes.SaltLength)
        {
            throw new ArgumentException($"The salt has {EntryBytes.SaltLength} bytes.", nameof(salt));
        }

        if (Impossible() is { } reason)
        {
            throw CannotBe(reason);
        }

        var kind = Kinds.Of(Fact);
        byte[] salted = [.. salt, .. kind.Write(Fact)];
        var envelope = EnvelopeText.Write(
            new Envelope
            {
                Id = Id,
                Replica = replica,
                Sequence = sequence,
                Author = Author,
                Written = Written,
                Zone = Zone,
                Happened = Happened,
                Kind = kind.Name,
                Version = kind.Version,
                Correction = Correction,
                Previous = previous,
                Body = Digest.Of(salted),
            }
        );
        var read = Entry.Read(new EntryBytes(envelope, salted));
        return read.Succeeded ? read.Value : throw CannotBe(read.Reason);
    }

    /// <summary>
    /// Why this can be no entry at all: its fact is impossible (see <see cref="Fact.Impossible"/>), or a correction
    /// has a fact of the wrong sort or is aimed at itself. None for everything that can be, however unlikely.
    /// </summary>
    public Remark? Impossible() =>
        Correction is { } own && own.Target == Id ? new Remark("corrects-itself", new Argument("entry", Id))
        : Fact is EntryTakenBack != Correction is { Kind: CorrectionKind.Retracts or CorrectionKind.Erases }
            ? new Remark("fact-does-not-go-with-correction", new Argument("kind", Kinds.Of(Fact).Name))
        : Fact.Impossible();

    private static ArgumentException CannotBe(Remark reason) => new(reason.ToString(), nameof(reason));
}
