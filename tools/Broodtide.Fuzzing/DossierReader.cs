using System.Text;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Fuzzing;

/// <summary>Packed dossiers; and their descriptor with a journal, with the hashes that would be right.</summary>
internal static class DossierReader
{
    public static void Read(byte[] bytes)
    {
        var (choice, rest) = Readers.Choose(bytes, 2);
        if (choice == 0)
        {
            using var stream = new MemoryStream(rest);
            var files = PackageZip.Read(stream);
            if (files.Succeeded)
            {
                ForeignPackage.Read(files.Value);
            }

            return;
        }

        var end = Array.IndexOf(rest, (byte)0) is >= 0 and var at ? at : rest.Length;
        var journal = new PackedFile(
            DossierPackage.JournalName,
            rest.AsMemory(Math.Min(rest.Length, end + 1))
        );
        var descriptor = Encoding
            .UTF8.GetString(rest, 0, end)
            .Replace("@", "sha256:" + journal.Sha256, StringComparison.Ordinal);
        ForeignPackage.Read([
            new PackedFile(DossierPackage.DescriptorName, Encoding.UTF8.GetBytes(descriptor)),
            journal,
        ]);
    }
}
