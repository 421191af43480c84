using System.Globalization;
using Broodtide.Workbench.Dossiers;
using Broodtide.Workbench.Photos;
using NodaTime;

namespace Broodtide.Storage.Dossiers;

/// <summary>
/// The dossiers of others as packed files in a folder beside the journal, each under the hash of its content. The instant
/// of taking in is the file's own time.
/// </summary>
public sealed class DossierShelf : IDossierShelf
{
    private const string Ending = ".dossier";

    private readonly string _path;

    private DossierShelf(string path) => _path = path;

    /// <summary>The folder beside a journal's file that belongs to it: journal.db has journal.dossiers.</summary>
    /// <param name="journalPath">The journal's file.</param>
    public static DossierShelf Beside(string journalPath)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(journalPath);
        return new(Path.ChangeExtension(Path.GetFullPath(journalPath), ".dossiers"));
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<ShelvedDossier>> ListAsync(CancellationToken cancellation = default)
    {
        var kept = new List<ShelvedDossier>();
        if (Directory.Exists(_path))
        {
            foreach (var file in new DirectoryInfo(_path).EnumerateFiles("*" + Ending))
            {
                cancellation.ThrowIfCancellationRequested();
                if (Read(Path.GetFileNameWithoutExtension(file.Name), cancellation) is { } dossier)
                {
                    kept.Add(
                        new(
                            dossier.Id,
                            dossier.Title,
                            dossier.By,
                            dossier.Licence,
                            Instant.FromDateTimeUtc(file.LastWriteTimeUtc),
                            dossier.RunIds.Count,
                            dossier.Entries.Count,
                            file.Length,
                            dossier.IsInvented
                        )
                    );
                }
            }
        }

        return new([
            .. kept.OrderByDescending(dossier => dossier.Taken)
                .ThenBy(dossier => dossier.Id, StringComparer.Ordinal),
        ]);
    }

    /// <inheritdoc/>
    public ValueTask<bool> PutAsync(
        ForeignDossier dossier,
        Instant taken,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(dossier);
        var place = PlaceOf(dossier.Id);
        if (File.Exists(place) && Read(dossier.Id, cancellation) is not null)
        {
            return new(false);
        }

        Directory.CreateDirectory(_path);
        DossierFiles.WriteFile(place, PackageZip.Write(dossier.Files));
        File.SetLastWriteTimeUtc(place, taken.ToDateTimeUtc());
        return new(true);
    }

    /// <inheritdoc/>
    public ValueTask<ForeignDossier?> ReadAsync(string id, CancellationToken cancellation = default) =>
        new(Read(id, cancellation));

    /// <inheritdoc/>
    public ValueTask<bool> RemoveAsync(string id, CancellationToken cancellation = default)
    {
        var place = PlaceOf(id);
        if (!File.Exists(place))
        {
            return new(false);
        }

        File.Delete(place);
        Disk.SyncFolder(_path);
        return new(true);
    }

    private ForeignDossier? Read(string id, CancellationToken cancellation)
    {
        if (!PhotoIntake.IsHash(id) || !File.Exists(PlaceOf(id)))
        {
            return null;
        }

        var read = DossierFiles.Read(PlaceOf(id), cancellation);
        return read.Succeeded && read.Value.Id == id ? read.Value : null;
    }

    private string PlaceOf(string id) =>
        PhotoIntake.IsHash(id)
            ? Path.Combine(_path, string.Create(CultureInfo.InvariantCulture, $"{id}{Ending}"))
            : throw new ArgumentException("A dossier is named by 64 hex figures.", nameof(id));
}
