using Broodtide.Units;

namespace Broodtide.Storage.Photos;

/// <summary>
/// Keeps photos, each by the hash of its bytes. None is there by half, and none is given out whose bytes are not those
/// that its name vouches for. Several programs may use it at once.
/// </summary>
public interface IPhotoShelf
{
    /// <summary>
    /// Keeps a photo under its hash; on the disk when this returns. One that is there already stays, unless it was
    /// damaged: then it is put right.
    /// </summary>
    /// <param name="bytes">The photo.</param>
    /// <returns>Its hash, and whether it was new.</returns>
    (string Sha256, bool IsNew) Put(ReadOnlySpan<byte> bytes);

    /// <summary>Whether there is a photo of that name. Its bytes are checked when it is read.</summary>
    /// <param name="sha256">64 lower-case hex figures.</param>
    bool Has(string sha256);

    /// <summary>Those of some names that are not here.</summary>
    /// <param name="hashes">64 lower-case hex figures each.</param>
    IReadOnlyList<string> Lacking(IEnumerable<string> hashes);

    /// <summary>A photo; none where it is not here, a reason where it is damaged.</summary>
    /// <param name="sha256">64 lower-case hex figures.</param>
    Parsed<byte[]>? Read(string sha256);

    /// <summary>Removes a photo for good.</summary>
    /// <param name="sha256">64 lower-case hex figures.</param>
    /// <returns>Whether it was there.</returns>
    bool Remove(string sha256);

    /// <summary>The hashes of all photos here, in order.</summary>
    IReadOnlyList<string> All();
}
