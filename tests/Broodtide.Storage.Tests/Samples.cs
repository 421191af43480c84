using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>Invented entries.</summary>
internal static class Samples
{
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 21, 5);

    public static Draft Note(string text, int minute = 0, Correction? correction = null) =>
        new(
            new EntryId(Guid.CreateVersion7()),
            new Author("Ada"),
            Start.Plus(Duration.FromMinutes(minute)),
            "Europe/Berlin",
            Happened.At(Start.Plus(Duration.FromMinutes(minute))),
            new NoteWritten(text),
            correction
        );

    public static Draft Erasure(EntryId target, int minute = 0) =>
        TakenBack(CorrectionKind.Erases, target, minute);

    public static Draft TakenBack(CorrectionKind kind, EntryId target, int minute = 0) =>
        new(
            new EntryId(Guid.CreateVersion7()),
            new Author("Ada"),
            Start.Plus(Duration.FromMinutes(minute)),
            "Europe/Berlin",
            Happened.At(Start.Plus(Duration.FromMinutes(minute))),
            new EntryTakenBack(),
            new Correction(kind, target)
        );

    /// <summary>An entry of a kind that this build does not know.</summary>
    public static Entry Unknown(ReplicaId replica, long sequence, Digest? previous)
    {
        byte[] salted = [.. new byte[EntryBytes.SaltLength], .. Encoding.UTF8.GetBytes("""{"pitch":440}""")];
        var envelope = EnvelopeText.Write(
            new Envelope
            {
                Id = new EntryId(Guid.CreateVersion7()),
                Replica = replica,
                Sequence = sequence,
                Author = new Author("Ada"),
                Written = Start,
                Zone = "Europe/Berlin",
                Happened = Happened.At(Start),
                Kind = "song sung",
                Version = 3,
                Previous = previous,
                Body = Digest.Of(salted),
            }
        );
        return Entry.Read(new EntryBytes(envelope, salted)).Value;
    }

    public static Entry Seal(Draft draft, ReplicaId replica, long sequence, Digest? previous) =>
        draft.Seal(replica, sequence, previous, Guid.NewGuid().ToByteArray());

    public static ReplicaId NewReplica() => new(Guid.CreateVersion7());

    public static string TextOf(Entry entry) => ((NoteWritten)entry.Fact).Text;

    /// <summary>Everything that two stores must agree on.</summary>
    public static IReadOnlyList<string> Shape(IEnumerable<Entry> entries) =>
        [
            .. entries
                .OrderBy(entry => entry.Digest)
                .Select(entry =>
                    $"{entry.Digest} {Convert.ToHexString(entry.Bytes.Envelope.Span)} {Convert.ToHexString(entry.Bytes.SaltedBody.Span)}"
                ),
        ];
}

/// <summary>A folder of its own for one test, removed afterwards.</summary>
internal sealed class Folder : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("broodtide-").FullName;

    public string this[string name] => Path.Combine(_path, name);

    public override string ToString() => _path;

    public void Dispose() => Directory.Delete(_path, recursive: true);
}
