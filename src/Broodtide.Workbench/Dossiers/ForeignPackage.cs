using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// Verifies a data package that somebody else made: whole and unchanged, or refused with a reason. Nothing of it is
/// trusted, nothing of it is run, every text in it stays a text.
/// </summary>
public static class ForeignPackage
{
    private const string HashPrefix = "sha256:";

    /// <summary>Verifies the files of a package.</summary>
    /// <param name="files">All its files, unpacked.</param>
    public static Parsed<ForeignDossier> Read(IReadOnlyList<PackedFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        var here = new Dictionary<string, PackedFile>(StringComparer.OrdinalIgnoreCase);
        foreach (var file in files)
        {
            if (PackagePath.WrongWith(file.Path) is { } unsafePath)
            {
                return Parsed<ForeignDossier>.No(unsafePath);
            }

            if (!here.TryAdd(file.Path, file))
            {
                return No("package-file-twice", file.Path);
            }
        }

        if (!here.Remove(DossierPackage.DescriptorName, out var descriptor))
        {
            return No("package-without-descriptor", DossierPackage.DescriptorName);
        }

        if (descriptor.Bytes.Length > PackageLimits.LargestDescriptor)
        {
            return Parsed<ForeignDossier>.No(
                "package-too-large",
                new Argument("allowedMegabytes", PackageLimits.LargestDescriptor / 1_000_000)
            );
        }

        try
        {
            using var json = JsonDocument.Parse(descriptor.Bytes, new() { MaxDepth = 64 });
            var told = PackageDescriptor.Read(json.RootElement);
            return told.Succeeded
                ? Read(descriptor, told.Value, here)
                : Parsed<ForeignDossier>.No(told.Reason);
        }
        catch (Exception broken)
            when (broken
                    is JsonException
                        or InvalidOperationException
                        or KeyNotFoundException
                        or FormatException
            )
        {
            return No("package-descriptor-unreadable", DossierPackage.DescriptorName);
        }
    }

    private static Parsed<ForeignDossier> Read(
        PackedFile descriptor,
        PackageDescriptor told,
        Dictionary<string, PackedFile> here
    )
    {
        var named = new List<PackedFile>();
        foreach (var (path, hash) in told.Resources)
        {
            if (!here.Remove(path, out var file))
            {
                return No("package-file-missing", path);
            }

            if (!string.Equals(hash, HashPrefix + file.Sha256, StringComparison.OrdinalIgnoreCase))
            {
                return No("package-file-changed", path);
            }

            if (WrongPhoto(file) is { } wrong)
            {
                return Parsed<ForeignDossier>.No(wrong);
            }

            named.Add(file);
        }

        if (here.Count > 0)
        {
            return No(
                "package-file-not-named",
                here.Values.Select(file => file.Path).Order(StringComparer.Ordinal).First()
            );
        }

        if (named.Find(file => file.Path == DossierPackage.JournalName) is not { } journal)
        {
            return No("package-file-missing", DossierPackage.JournalName);
        }

        var entries = Journal(journal);
        return entries.Succeeded
            ? Whole(descriptor, told, named, entries.Value)
            : Parsed<ForeignDossier>.No(entries.Reason);
    }

    private static Parsed<ForeignDossier> Whole(
        PackedFile descriptor,
        PackageDescriptor told,
        List<PackedFile> files,
        IReadOnlyList<Entry> entries
    )
    {
        var house = new House(Account.Of(entries));
        foreach (var run in told.Runs)
        {
            if (house.Run(run).Brood is null)
            {
                return Parsed<ForeignDossier>.No("package-run-missing", new Argument("id", run.Value));
            }
        }

        return Parsed<ForeignDossier>.Of(
            new()
            {
                Id = descriptor.Sha256,
                Title = told.Title,
                By = told.By,
                Licence = told.Licence,
                Engine = told.Engine,
                ToldFor = told.ToldFor,
                Zone = told.Zone,
                RunIds = told.Runs,
                Entries = entries,
                Files = [descriptor, .. files],
            }
        );
    }

    // The other files are text that nothing opens; a photo is shown, so it must be one.
    private static Remark? WrongPhoto(PackedFile file)
    {
        if (!file.Path.StartsWith("photos/", StringComparison.Ordinal))
        {
            return null;
        }

        var look = PhotoIntake.Look(file.Bytes.Span);
        return
            look.Succeeded
            && PhotoFormats.Find(file.Bytes.Span) is { } format
            && file.Path == $"photos/{file.Sha256}{PhotoFormats.EndingOf(format)}"
            ? null
            : new Remark("package-photo-is-none", new Argument("file", file.Path));
    }

    private static Parsed<IReadOnlyList<Entry>> Journal(PackedFile file)
    {
        string text;
        try
        {
            text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(file.Bytes.Span);
        }
        catch (DecoderFallbackException)
        {
            return Parsed<IReadOnlyList<Entry>>.No(
                "package-journal-unreadable",
                new Argument("reason", "UTF-8")
            );
        }

        var lines = text.Split('\n');
        if (lines.Length > PackageLimits.MostEntries)
        {
            return Parsed<IReadOnlyList<Entry>>.No(
                "package-too-many-entries",
                new("entries", lines.Length),
                new("allowed", PackageLimits.MostEntries)
            );
        }

        var read = JournalLines.Read(lines[^1].Length == 0 ? lines[..^1] : lines);
        return read.Succeeded
            ? read
            : Parsed<IReadOnlyList<Entry>>.No(
                "package-journal-unreadable",
                new Argument("reason", read.Reason.ToString())
            );
    }

    private static Parsed<ForeignDossier> No(string code, string file) =>
        Parsed<ForeignDossier>.No(code, new Argument("file", file));
}
