using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Dossiers;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Fuzzing;

/// <summary>First inputs: one small honest thing of each sort, so that the fuzzer need not invent formats.</summary>
internal static class Seeds
{
    public static void Write(string folder, string repository)
    {
        var entries = Golden(repository);
        foreach (var name in Readers.Names)
        {
            var inside = Directory.CreateDirectory(Path.Combine(folder, name)).FullName;
            var number = 0;
            foreach (var seed in Of(name, entries, repository))
            {
                File.WriteAllBytes(Path.Combine(inside, $"seed-{number++:000}"), seed);
            }
        }
    }

    private static IEnumerable<byte[]> Of(string name, List<Entry> entries, string repository) =>
        name switch
        {
            "entry" => EntrySeeds(entries),
            "dossier" => DossierSeeds(entries),
            "table" => Texts(
                (0, "date;Cel\n01.02.2026 12:30;24,5\n"),
                (1, """{"dateColumn":0,"order":"dayMonthYear","zone":"Europe/Zurich","columns":[]}"""),
                (2, "\u0001\u0006d;t;n;x\n1.2.2026;24,5;12;\"a \"\"b\"\"\"\n"),
                (2, "\u0040\u0025\n2026-02-01T12:30,24.5,12,note\n")
            ),
            "photo" => Photos(repository),
            "sensor" => Texts(
                (0, "broodtide/shelf-1/water/readings"),
                (1, """{"quantity":"temperature","unit":"Cel","resolution":0.1}"""),
                (2, """[{"at":"2026-01-01T12:00:00Z","value":24.5,"seq":1,"unit":"Cel"}]"""),
                (2, """{"at":"2026-01-01T12:00:00Z","value":24.5,"seq":1,"unit":"Cel"}"""),
                (3, "online"),
                (4, "BTDB\u0001\u0003a/b\u0003Cel\u0002\u0002\u0001\u0000\u0001\u0002")
            ),
            _ => SyncSeeds(entries),
        };

    private static List<Entry> Golden(string repository)
    {
        var first = new Dictionary<string, Entry>(StringComparer.Ordinal);
        foreach (
            var file in Directory
                .GetFiles(Path.Combine(repository, "tests/Broodtide.Domain.Tests/golden"), "*.jsonl")
                .Order(StringComparer.Ordinal)
        )
        {
            foreach (var entry in JournalLines.Read(File.ReadAllLines(file)).Value)
            {
                first.TryAdd($"{entry.Envelope.Kind} {entry.Envelope.Version}", entry);
            }
        }

        return [.. first.Values];
    }

    private static IEnumerable<byte[]> EntrySeeds(List<Entry> entries)
    {
        foreach (var entry in entries.Where(entry => entry.HasBody))
        {
            var at = Kinds.All.ToList().FindIndex(kind => kind.Name == entry.Envelope.Kind);
            if (at >= 0)
            {
                yield return
                [
                    1,
                    (byte)at,
                    (byte)(entry.Envelope.Version - 1),
                    .. entry.Bytes.SaltedBody.Span[EntryBytes.SaltLength..],
                ];
            }
        }

        yield return [0, .. entries[0].Bytes.Envelope.Span, (byte)'\n', .. entries[0].Bytes.SaltedBody.Span];
        yield return [2, .. Encoding.UTF8.GetBytes(string.Join('\n', JournalLines.Write(entries[..2])))];
        yield return [3, .. """{"a":[1,2.5e-7,true,null,"\u00e9"]}"""u8];
    }

    private static IEnumerable<byte[]> DossierSeeds(List<Entry> entries)
    {
        var lines = Encoding.UTF8.GetBytes(string.Join('\n', JournalLines.Write(entries[..2])));
        var descriptor = Encoding.UTF8.GetBytes(DossierReader.Descriptor(DossierReader.Run, "@0"));
        var name = Encoding.UTF8.GetBytes(DossierPackage.JournalName + "\n");
        yield return [1, .. descriptor, 0, .. name, .. lines];
        yield return
        [
            0,
            .. PackageZip.Write([
                new(DossierPackage.DescriptorName, descriptor),
                new(DossierPackage.JournalName, lines),
            ]),
        ];
        yield return
        [
            3,
            .. "photos/a.png\n"u8,
            0x41,
            0xED,
            0,
            .. "tables/x.csv\n"u8,
            0x81,
            0xA4,
            0,
            .. name,
            .. lines,
        ];
        var facts = OneOfEachKind();
        foreach (var fewer in facts.Skip(1).Chunk(6))
        {
            byte[] chain = [.. VouchedFor.Piece(facts[0]), .. fewer.SelectMany(VouchedFor.Piece)];
            var read = ForeignPackage.Read(DossierReader.Package(chain));
            yield return read.Succeeded
                ? [2, .. chain]
                : throw new InvalidOperationException($"A seed is refused: {read.Reason}");
        }
    }

    // The run first, then one short fact of each kind of the invented house.
    private static List<Fact> OneOfEachKind()
    {
        var facts = InventedHouse
            .Drafts(Instant.FromUtc(2026, 7, 20, 16, 0), DateTimeZone.Utc)
            .Select(draft => draft.Fact)
            .ToList();
        var run = facts.OfType<RunStarted>().First() with { Run = new RunId(DossierReader.Run) };
        return
        [
            run,
            .. facts
                .Where(fact => fact is not RunStarted && VouchedFor.Piece(fact).Length < 600)
                .DistinctBy(fact => fact.GetType()),
        ];
    }

    private static IEnumerable<byte[]> Photos(string repository) =>
        Directory
            .EnumerateFiles(Path.Combine(repository, "tests"), "*.*", SearchOption.AllDirectories)
            .Where(file => Path.GetExtension(file) is ".jpg" or ".jpeg" or ".png" or ".webp")
            .Where(file => new FileInfo(file).Length < 4000)
            .Order(StringComparer.Ordinal)
            .Take(12)
            .Select(File.ReadAllBytes)
            .Concat([
                [
                    0xFF,
                    0xD8,
                    0xFF,
                    0xE0,
                    0,
                    4,
                    1,
                    2,
                    0xFF,
                    0xC0,
                    0,
                    11,
                    8,
                    0,
                    8,
                    0,
                    8,
                    1,
                    1,
                    0x11,
                    0,
                    0xFF,
                    0xDA,
                    0,
                    8,
                    1,
                    1,
                    0,
                    0,
                    63,
                    0,
                    1,
                    2,
                    0xFF,
                    0xD9,
                ],
                [.. "RIFF"u8, 22, 0, 0, 0, .. "WEBPVP8L"u8, 10, 0, 0, 0, 0x2F, 7, 0xC0, 1, 0, 0, 0, 0, 0, 0],
                [
                    0x89,
                    .. "PNG\r\n\x1a\n"u8,
                    0,
                    0,
                    0,
                    13,
                    .. "IHDR"u8,
                    0,
                    0,
                    0,
                    8,
                    0,
                    0,
                    0,
                    8,
                    8,
                    0,
                    0,
                    0,
                    0,
                    0xE0,
                    0xBD,
                    0x16,
                    0x04,
                    0,
                    0,
                    0,
                    0,
                    .. "IEND"u8,
                    0xAE,
                    0x42,
                    0x60,
                    0x82,
                ],
            ]);

    private static IEnumerable<byte[]> SyncSeeds(List<Entry> entries)
    {
        var holdings = Holdings.Of(entries);
        var report = new PhoneReport(
            new Dictionary<ReplicaId, int> { [entries[0].Envelope.Replica] = 2 },
            null
        );
        yield return [0, .. SharingText.Meeting(holdings, report)];
        yield return [1, .. SharingText.Lacking(holdings, new FetchedUpTo(entries[0].Envelope.Replica, 3))];
        yield return [2, .. SharingText.Giving(entries[..2], report)];
        yield return [3, .. EntryBatch.Pack(entries[..2])];
        yield return
        [
            4,
            .. SharingText.Text(
                new Welcome(
                    holdings,
                    new HashSet<ReplicaId>(),
                    new HashSet<ReplicaId>(),
                    new(Guid.Empty),
                    Role.Keeper,
                    1,
                    2,
                    null,
                    3
                )
            ),
        ];
        yield return [5, .. SharingText.Text(new Accepted(1, 2, 3))];
        yield return [6, .. SharingText.Text(new Remark("sync-not-json", new Argument("bytes", 4)))];
        yield return [7, .. """["aa"]"""u8];
        yield return [8, .. """["019ab5d0-5c00-7000-8000-000000000001"]"""u8];
        yield return [9, .. """{"hours":24}"""u8];
        yield return [10, .. EntryBatch.Pack(entries[..2])];
    }

    private static IEnumerable<byte[]> Texts(params (byte Choice, string Text)[] seeds) =>
        seeds.Select(seed => (byte[])[seed.Choice, .. Encoding.Latin1.GetBytes(seed.Text)]);
}
