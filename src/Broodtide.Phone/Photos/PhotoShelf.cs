using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Keeping;
using Broodtide.Workbench.Photos;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Phone.Photos;

/// <summary>Whether a photo can be shown.</summary>
internal enum PhotoPlace
{
    /// <summary>It lies on this phone.</summary>
    Here,

    /// <summary>The house does not hold it yet: it is on the phone that took it.</summary>
    OnAnotherPhone,

    /// <summary>The house cannot be reached.</summary>
    NoNetwork,
}

/// <summary>
/// The photos of this phone: kept with their entry, sent to the house after it, fetched from there when somebody looks,
/// gone when the entry is erased. None of it holds up an entry.
/// </summary>
internal sealed class PhotoShelf(
    PhotoStore store,
    Desk desk,
    PhoneJournal journal,
    HttpClient http,
    IClock clock
)
{
    private const string Api = "api/photos/";

    // After a refusal or without the house there is no hurry.
    private static readonly Duration TryAgainAfter = Duration.FromSeconds(20);

    // A file without an entry: the phone was switched off between the two.
    private static readonly Duration StrandedAfter = Duration.FromDays(1);

    private bool _watching;
    private bool _busy;
    private bool _again;
    private Instant _notBefore = Instant.MinValue;
    private IReadOnlyList<PhotoRow>? _rows;

    /// <summary>A photo came, went or was sent.</summary>
    public event Action? Changed;

    /// <summary>Photos, without their thumbnails, that the house does not hold yet.</summary>
    public int Waiting { get; private set; }

    /// <summary>Begins to follow the desk; once.</summary>
    public void Watch()
    {
        if (!_watching)
        {
            _watching = true;
            // The desk tells first when the journal is open: nothing of this is needed before.
            desk.Changed += () => _ = FollowAsync();
        }
    }

    /// <summary>
    /// Keeps a photo with its thumbnail, then writes its entry. Answers the entry, or none where there is no room:
    /// then nothing was kept and nothing written.
    /// </summary>
    public async Task<Entry?> AddAsync(PhotoTaken photo, PhotoTaken? thumbnail, Draft draft)
    {
        var isKept = await store.KeepAsync(
            draft.Id,
            isWaiting: true,
            (photo.Sha256, photo.Bytes),
            thumbnail is null ? null : (thumbnail.Sha256, thumbnail.Bytes)
        );
        if (!isKept)
        {
            return null;
        }

        _rows = null;
        var written = await desk.WriteAsync(draft);
        await CountAsync();
        return written[^1];
    }

    /// <summary>An address to show a file from, fetched from the house if it is not here; to be let go afterwards.</summary>
    public async Task<(PhotoPlace Place, string? Address)> ShowAsync(
        string hash,
        string mediaType,
        EntryId entry
    )
    {
        if (await store.AddressAsync(hash, mediaType) is { } here)
        {
            return (PhotoPlace.Here, here);
        }

        var (place, bytes) = await FetchAsync(hash);
        if (bytes is null)
        {
            return (place, null);
        }

        // Without room it is shown all the same, and fetched again the next time.
        await store.KeepAsync(entry, isWaiting: false, (hash, bytes), null);
        _rows = null;
        using var shown = Bytes.ToScript(bytes);
        return (PhotoPlace.Here, PhotoGlue.Show(shown, mediaType));
    }

    public static void LetGo(string address) => PhotoGlue.LetGo(address);

    private async Task<(PhotoPlace, byte[]?)> FetchAsync(string hash)
    {
        try
        {
            using var answer = await http.GetAsync(Api + hash);
            if (!answer.IsSuccessStatusCode)
            {
                return (
                    answer.StatusCode is HttpStatusCode.NotFound
                        ? PhotoPlace.OnAnotherPhone
                        : PhotoPlace.NoNetwork,
                    null
                );
            }

            var bytes = await answer.Content.ReadAsByteArrayAsync();
            return PhotoIntake.HashOf(bytes) == hash
                ? (PhotoPlace.Here, bytes)
                : (PhotoPlace.OnAnotherPhone, null);
        }
        catch (Exception away) when (away is HttpRequestException or OperationCanceledException)
        {
            return (PhotoPlace.NoNetwork, null);
        }
    }

    private async Task FollowAsync()
    {
        if (_busy)
        {
            _again = true;
            return;
        }

        _busy = true;
        try
        {
            do
            {
                _again = false;
                await desk.OpenAsync();
                await ClearAsync();
                await CountAsync();
                // Entries first: the house takes no photo that none of them names.
                if (
                    Waiting > 0
                    && desk.LastMeeting is Meeting.Agreed
                    && clock.GetCurrentInstant() >= _notBefore
                )
                {
                    await SendAsync();
                    await CountAsync();
                }
            } while (_again);
        }
        finally
        {
            _busy = false;
        }
    }

    // The files of erased entries, and those whose entry was never written.
    private async Task ClearAsync()
    {
        var now = clock.GetCurrentInstant();
        var going = (await RowsAsync())
            .Where(row =>
                desk.Account.Find(row.Entry) is { } entry
                    ? !entry.HasBody
                    : now - Instant.FromUnixTimeMilliseconds((long)row.KeptAtMilliseconds) > StrandedAfter
            )
            .ToList();
        if (going.Count == 0)
        {
            return;
        }

        var named = PhotoNames.Named(desk.Account.Entries);
        foreach (var row in going.Where(row => !named.Contains(row.Hash)))
        {
            await store.RemoveAsync(row.Hash);
            _rows = null;
        }
    }

    private async Task SendAsync()
    {
        try
        {
            var unsent = (await journal.ReadWaitingAsync()).Select(row => row.Digest).ToHashSet();
            var waiting = (await RowsAsync())
                .Where(row =>
                    row.IsWaiting
                    && desk.Account.Find(row.Entry) is { } entry
                    && !unsent.Contains(entry.Digest)
                )
                .Select(row => row.Hash)
                .ToList();
            if (waiting.Count == 0)
            {
                return;
            }

            using var asked = new ByteArrayContent(
                JsonSerializer.SerializeToUtf8Bytes(waiting, PhotoJson.Default.ListString)
            );
            asked.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            using var answer = await http.PostAsync(Api + "lacking", asked);
            answer.EnsureSuccessStatusCode();
            var lacking = JsonSerializer.Deserialize(
                await answer.Content.ReadAsByteArrayAsync(),
                PhotoJson.Default.ListString
            )!;
            foreach (var hash in waiting)
            {
                if (!lacking.Contains(hash) || await PutAsync(hash))
                {
                    await store.SentAsync(hash);
                    _rows = null;
                    await CountAsync();
                }
            }
        }
        catch (Exception away)
            when (away is HttpRequestException or OperationCanceledException or JsonException)
        {
            _notBefore = clock.GetCurrentInstant() + TryAgainAfter;
        }
    }

    private async Task<bool> PutAsync(string hash)
    {
        if (await store.ReadAsync(hash) is not { } bytes)
        {
            return false;
        }

        using var content = new ByteArrayContent(bytes);
        if (PhotoFormats.Find(bytes) is { } format)
        {
            content.Headers.ContentType = new MediaTypeHeaderValue(PhotoFormats.MediaTypeOf(format));
        }

        using var answer = await http.PutAsync(Api + hash, content);
        if (!answer.IsSuccessStatusCode)
        {
            _notBefore = clock.GetCurrentInstant() + TryAgainAfter;
        }

        return answer.IsSuccessStatusCode;
    }

    private async Task<IReadOnlyList<PhotoRow>> RowsAsync() => _rows ??= await store.ListAsync();

    private async Task CountAsync()
    {
        var hashes = (await RowsAsync())
            .Where(row => row.IsWaiting)
            .Select(row => row.Entry)
            .Distinct()
            .Count();
        if (hashes != Waiting)
        {
            Waiting = hashes;
            Changed?.Invoke();
        }
    }
}

[JsonSerializable(typeof(List<string>))]
internal sealed partial class PhotoJson : JsonSerializerContext;
