using System.IO.Compression;
using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Fuzzing;

/// <summary>
/// Packages of strangers: as a file; as files of any name in a file that is whole; as a descriptor with the hashes that
/// would be right; and as a journal of any facts, whole in every other way.
/// </summary>
internal static class DossierReader
{
    /// <summary>The run that a package of <see cref="Package"/> says it is about.</summary>
    public static Guid Run { get; } = new("019ab5d0-5c00-7000-8000-0000000000ff");

    public static void Read(byte[] bytes)
    {
        var (choice, rest) = Readers.Choose(bytes, 4);
        switch (choice)
        {
            case 0:
                Packed(rest);
                break;
            case 1:
                Described(rest);
                break;
            case 2:
                Foreign(Package(rest));
                break;
            default:
                Named(rest);
                break;
        }
    }

    /// <summary>A descriptor as a dossier has it, with a hash in its place.</summary>
    public static string Descriptor(Guid run, string hash) =>
        $$"""
            {"profile":"data-package","name":"x","title":"x","contributors":[{"title":"y"}],"licenses":[{"name":"CC0-1.0"}],
            "broodtide":{"dossier":1,"engine":"e","toldFor":"2026-02-01T12:00:00Z","zone":"Europe/Zurich","runs":["{{run}}"]},
            "resources":[{"name":"journal","path":"{{DossierPackage.JournalName}}","hash":"{{hash}}"}]}
            """;

    private static void Packed(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes);
        if (PackageZip.Read(stream) is { Succeeded: true } files)
        {
            Foreign(files.Value);
        }
    }

    // The descriptor up to the first zero; after each zero another file, its name up to a line feed. An @ with a figure in
    // the descriptor is the hash of that file.
    private static void Described(byte[] bytes)
    {
        var parts = Parts(bytes);
        var files = parts.Skip(1).Select(File).ToList();
        var descriptor = Encoding.UTF8.GetString(parts[0]);
        for (var at = 0; at < Math.Min(files.Count, 10); at++)
        {
            descriptor = descriptor.Replace($"@{at}", Hash(files[at]), StringComparison.Ordinal);
        }

        Foreign([
            new PackedFile(DossierPackage.DescriptorName, Encoding.UTF8.GetBytes(descriptor)),
            .. files,
        ]);
    }

    /// <summary>A package of a journal of these facts, in the form of <see cref="VouchedFor.Chain"/>.</summary>
    public static IReadOnlyList<PackedFile> Package(byte[] bytes)
    {
        var lines = string.Join('\n', JournalLines.Write(VouchedFor.Chain(bytes)));
        var journal = new PackedFile(DossierPackage.JournalName, Encoding.UTF8.GetBytes(lines));
        return
        [
            new PackedFile(
                DossierPackage.DescriptorName,
                Encoding.UTF8.GetBytes(Descriptor(Run, Hash(journal)))
            ),
            journal,
        ];
    }

    // Files of any name and attributes, in a file that is packed as it should be.
    private static void Named(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZipArchive(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in Parts(bytes).Select(File).Where(file => file.Path.Length is > 0 and < 1000))
            {
                var entry = zip.CreateEntry(file.Path);
                entry.ExternalAttributes =
                    file.Bytes.Length > 1 ? (file.Bytes.Span[0] << 24) | (file.Bytes.Span[1] << 16) : 0;
                using var stream = entry.Open();
                stream.Write(file.Bytes.Span);
            }
        }

        Packed(packed.ToArray());
    }

    private static void Foreign(IReadOnlyList<PackedFile> files)
    {
        if (
            ForeignPackage.Read(files) is { Succeeded: true } read
            && ForeignPackage.Read(read.Value.Files) is not { Succeeded: true }
        )
        {
            throw new InvalidOperationException("What was taken is refused the second time.");
        }
    }

    private static string Hash(PackedFile file) => $"sha256:{file.Sha256}";

    private static PackedFile File(byte[] bytes)
    {
        var end = Array.IndexOf(bytes, (byte)'\n') is >= 0 and var at ? at : bytes.Length;
        return new(Encoding.UTF8.GetString(bytes, 0, end), bytes.AsMemory(Math.Min(bytes.Length, end + 1)));
    }

    private static List<byte[]> Parts(byte[] bytes)
    {
        var parts = new List<byte[]>();
        var first = 0;
        for (var at = 0; at <= bytes.Length; at++)
        {
            if (at == bytes.Length || bytes[at] == 0)
            {
                parts.Add(bytes[first..at]);
                first = at + 1;
            }
        }

        return parts;
    }
}
