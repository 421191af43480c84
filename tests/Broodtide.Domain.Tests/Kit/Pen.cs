using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using NodaTime;

namespace Broodtide.Domain.Tests.Kit;

/// <summary>Writes the entries of one replica: numbers and chains them, with identities and salts that repeat.</summary>
internal sealed class Pen(int replica)
{
    private int _seed = replica * 1_000_000;

    public static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 21, 0);

    public ReplicaId Replica { get; } = new(Uuid(replica + 1));

    public long Sequence { get; private set; }

    public Digest? Previous { get; private set; }

    /// <summary>A UUID that carries a number, in the form of version 7.</summary>
    public static Guid Uuid(int number) => new($"0195557c-0000-7000-8000-{number:x12}");

    /// <summary>Writes a fact through the door that keepers' entries go through.</summary>
    public Entry Write(
        Fact fact,
        int minute = 0,
        Correction? correction = null,
        Happened? happened = null,
        EntryId? id = null
    )
    {
        var written = Start + Duration.FromMinutes(minute);
        var draft = new Draft(
            id ?? new EntryId(Uuid(0x10000 + ++_seed)),
            new Author("Ada"),
            written,
            "Europe/Berlin",
            happened ?? Happened.At(written),
            fact,
            correction
        );
        var entry = draft.Seal(Replica, Sequence + 1, Previous, Salt(_seed));
        Sequence++;
        Previous = entry.Digest;
        return entry;
    }

    public Entry Note(string text, int minute = 0) => Write(new NoteWritten(text), minute);

    public Entry Replace(Entry target, string text, int minute) =>
        Write(new NoteWritten(text), minute, new(CorrectionKind.Replaces, target.Id));

    public Entry Retract(Entry target, int minute) =>
        Write(new EntryTakenBack(), minute, new(CorrectionKind.Retracts, target.Id));

    public Entry EraseFacts(Entry target, int minute) =>
        Write(new EntryTakenBack("asked to"), minute, new(CorrectionKind.Erases, target.Id));

    /// <summary>Writes bytes that no door of this build would write.</summary>
    public Entry Raw(Envelope envelope, string body, int salt, bool counts = true)
    {
        byte[] salted = [.. Salt(salt), .. Encoding.UTF8.GetBytes(body)];
        var bytes = EnvelopeText.Write(envelope with { Body = Digest.Of(salted) });
        var read = Entry.Read(new EntryBytes(bytes, salted));
        Assert.True(read.Succeeded, read.Reason?.ToString());
        if (counts)
        {
            Sequence++;
            Previous = read.Value.Digest;
        }

        return read.Value;
    }

    public static byte[] Salt(int seed) => Digest.Of(BitConverter.GetBytes(seed)).ToBytes()[..16];
}
