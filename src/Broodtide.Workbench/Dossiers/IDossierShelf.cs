using NodaTime;

namespace Broodtide.Workbench.Dossiers;

/// <summary>A dossier of somebody else, as the list of them shows it.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">What its maker calls it.</param>
/// <param name="By">Who made it.</param>
/// <param name="Licence">Its licence.</param>
/// <param name="Taken">When it was taken in.</param>
/// <param name="Runs">How many runs it tells.</param>
/// <param name="Entries">How many entries it holds.</param>
/// <param name="Bytes">Its length in bytes, packed.</param>
/// <param name="IsInvented">Whether any of it was invented.</param>
public sealed record ShelvedDossier(
    string Id,
    string Title,
    string? By,
    string? Licence,
    Instant Taken,
    int Runs,
    int Entries,
    long Bytes,
    bool IsInvented
);

/// <summary>
/// Where the dossiers of others are kept: beside the journal, never in it. Each lies there whole or not at all, under the
/// hash of its content, and is verified anew when it is read.
/// </summary>
public interface IDossierShelf
{
    /// <summary>What is kept, the newest first. One whose file was damaged is not among them.</summary>
    ValueTask<IReadOnlyList<ShelvedDossier>> ListAsync(CancellationToken cancellation = default);

    /// <summary>Keeps a dossier; on the disk when this returns.</summary>
    /// <returns>Whether it was not there before.</returns>
    ValueTask<bool> PutAsync(ForeignDossier dossier, Instant taken, CancellationToken cancellation = default);

    /// <summary>A dossier; none where there is none of that name, or its file was damaged.</summary>
    ValueTask<ForeignDossier?> ReadAsync(string id, CancellationToken cancellation = default);

    /// <summary>Removes a dossier for good.</summary>
    /// <returns>Whether it was there.</returns>
    ValueTask<bool> RemoveAsync(string id, CancellationToken cancellation = default);

    /// <summary>All runs of all dossiers kept, to be pooled: those of one run that came twice are there once.</summary>
    async ValueTask<IReadOnlyList<ForeignRun>> RunsAsync(CancellationToken cancellation = default)
    {
        var runs = new Dictionary<Domain.RunId, ForeignRun>();
        foreach (var kept in await ListAsync(cancellation))
        {
            if (await ReadAsync(kept.Id, cancellation) is { } dossier)
            {
                foreach (var run in dossier.Runs)
                {
                    // The newest comes first and tells most.
                    runs.TryAdd(run.Run, run);
                }
            }
        }

        return [.. runs.Values];
    }
}
