using Broodtide.Domain;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Postgres;
using Broodtide.Workbench;
using Broodtide.Workbench.Photos;

namespace Broodtide.Server.Photos;

/// <summary>
/// The house's photos beside its journal: a file is taken and given out only while an entry names it, and goes when the
/// last entry that named it was erased, by whichever door the erasing came.
/// </summary>
internal sealed class SharedPhotos(IPhotoShelf shelf, ISharedJournal journal) : IDisposable
{
    // Batches of one meeting follow each other quickly; one look after them is enough.
    private static readonly TimeSpan AfterWriting = TimeSpan.FromSeconds(2);

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly Dictionary<EntryId, PhotoAdded> _known = [];
    private readonly CancellationTokenSource _closing = new();
    private HashSet<string> _named = [];
    private volatile bool _isOld = true;
    private volatile bool _hasLooked;
    private long _place;

    /// <summary>The photos beside the journal that the server was started with, or in its database.</summary>
    public static SharedPhotos Open(ServerOptions options, ISharedJournal journal, PostgresStore? store) =>
        new(
            store is not null
                ? new PostgresPhotos(store)
                : PhotoFolder.Beside(
                    options.Demo
                        ? Path.Combine(options.DataFolder.FullName, "demo", "invented.db")
                        : Path.Combine(options.DataFolder.FullName, "journal.db")
                ),
            journal
        );

    public void Dispose()
    {
        _closing.Cancel();
        _closing.Dispose();
        _turn.Dispose();
    }

    /// <summary>
    /// Somebody is about to write in the journal: what is to be erased must have been seen before, or nobody knows
    /// afterwards which files it named.
    /// </summary>
    public Task JournalChangingAsync(CancellationToken cancel) => LookAsync(cancel);

    /// <summary>Somebody wrote in the journal: it is looked at when a photo is asked for, at the latest in a moment.</summary>
    public void JournalChanged()
    {
        if (!_isOld)
        {
            _isOld = true;
            _ = LookLaterAsync();
        }
    }

    /// <summary>Whether an entry names a file.</summary>
    public async Task<bool> IsNamedAsync(string sha256, CancellationToken cancel)
    {
        await LookAsync(cancel);
        return _named.Contains(sha256);
    }

    /// <summary>Those of some hashes whose files are not here.</summary>
    public IReadOnlyList<string> Lacking(IEnumerable<string> hashes) => shelf.Lacking(hashes);

    public bool Put(byte[] bytes) => shelf.Put(bytes).IsNew;

    public Units.Parsed<byte[]>? Read(string sha256) => shelf.Read(sha256);

    /// <summary>Looks at what was written since, and removes the files of what was erased.</summary>
    public async Task LookAsync(CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            // Before the journal is read: what is written meanwhile is looked at again. Another program may have
            // written too, so the journal is asked each time; where nothing arrived that costs next to nothing.
            _isOld = false;
            var arrived = await journal.ArrivedSinceAsync(_place, cancel);
            if (_hasLooked && arrived.Count == 0)
            {
                return;
            }

            var entries = await journal.ReadAllAsync(cancel);
            var erased = entries.Where(entry => !entry.HasBody).Select(entry => entry.Id).ToHashSet();
            var named = PhotoNames.Named(entries).ToHashSet(StringComparer.Ordinal);
            foreach (var (id, photo) in _known.Where(known => erased.Contains(known.Key)).ToList())
            {
                foreach (var file in PhotoNames.FilesOf(photo).Where(file => !named.Contains(file)))
                {
                    shelf.Remove(file);
                }

                _known.Remove(id);
            }

            foreach (var (entry, photo) in PhotoNames.Photos(entries))
            {
                _known[entry.Id] = photo;
            }

            _named = named;
            _place = arrived.Count > 0 ? arrived[^1].Place : _place;
            _hasLooked = true;
        }
        catch
        {
            _isOld = true;
            throw;
        }
        finally
        {
            _turn.Release();
        }
    }

    private async Task LookLaterAsync()
    {
        try
        {
            await Task.Delay(AfterWriting, _closing.Token);
            await LookAsync(_closing.Token);
        }
        catch (Exception closed) when (closed is OperationCanceledException or ObjectDisposedException)
        {
            // The house is closing; the next start looks anew.
        }
    }
}
