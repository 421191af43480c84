using System.Globalization;
using Broodtide.Domain;
using Broodtide.Phone.Browser;

namespace Broodtide.Phone.Photos;

/// <summary>A file that a photo's entry names, as it lies on this phone.</summary>
/// <param name="Hash">SHA-256 of its bytes.</param>
/// <param name="Entry">The entry it came with.</param>
/// <param name="KeptAtMilliseconds">When it was kept, since 1970.</param>
/// <param name="IsWaiting">Whether the house does not hold it yet.</param>
internal sealed record PhotoRow(string Hash, EntryId Entry, double KeptAtMilliseconds, bool IsWaiting);

/// <summary>The photos on this phone, in a database of their own. A finished keep is on the disk.</summary>
internal sealed class PhotoStore
{
    /// <summary>Keeps a photo and its thumbnail, both or neither. Answers whether there was room.</summary>
    public async Task<bool> KeepAsync(
        EntryId entry,
        bool isWaiting,
        (string Hash, byte[] Bytes) photo,
        (string Hash, byte[] Bytes)? thumbnail
    )
    {
        await PhotoGlue.Load();
        using var bytes = Bytes.ToScript(photo.Bytes);
        using var small = thumbnail is { } given ? Bytes.ToScript(given.Bytes) : null;
        return await PhotoGlue.Keep(
            entry.Value.ToString(),
            isWaiting,
            photo.Hash,
            bytes,
            thumbnail?.Hash,
            small
        );
    }

    public async Task<IReadOnlyList<PhotoRow>> ListAsync()
    {
        await PhotoGlue.Load();
        var rows = new List<PhotoRow>();
        foreach (var line in (await PhotoGlue.List()).Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = line.Split(' ');
            rows.Add(
                new(
                    parts[0],
                    new EntryId(Guid.Parse(parts[1])),
                    double.Parse(parts[2], CultureInfo.InvariantCulture),
                    parts[3] == "1"
                )
            );
        }

        return rows;
    }

    public async Task<byte[]?> ReadAsync(string hash)
    {
        await PhotoGlue.Load();
        return await PhotoGlue.Read(hash) is { } bytes ? Bytes.FromScript(bytes) : null;
    }

    public async Task SentAsync(string hash)
    {
        await PhotoGlue.Load();
        await PhotoGlue.Sent(hash);
    }

    public async Task RemoveAsync(string hash)
    {
        await PhotoGlue.Load();
        await PhotoGlue.Remove(hash);
    }

    /// <summary>An address that a picture can be shown from; to be let go afterwards.</summary>
    public async Task<string?> AddressAsync(string hash, string mediaType)
    {
        await PhotoGlue.Load();
        return await PhotoGlue.Address(hash, mediaType);
    }

    /// <summary>Bytes left for this app; less than none where the browser does not say.</summary>
    public async Task<double> RoomAsync()
    {
        await PhotoGlue.Load();
        return await PhotoGlue.Room();
    }
}
