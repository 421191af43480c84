using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;

namespace Broodtide.Workbench.Photos;

/// <summary>
/// Which files the entries of a journal speak of. A file belongs to the house as long as one entry with its facts names
/// it; once the last was erased, it has to go.
/// </summary>
public static class PhotoNames
{
    private const string Kind = "photo added";

    /// <summary>Every photo that an entry holds, corrected and taken back ones included: those can be read again.</summary>
    public static IEnumerable<(Entry Entry, PhotoAdded Photo)> Photos(IEnumerable<Entry> entries)
    {
        ArgumentNullException.ThrowIfNull(entries);
        foreach (var entry in entries)
        {
            if (
                entry.HasBody
                && string.Equals(entry.Envelope.Kind, Kind, StringComparison.Ordinal)
                && entry.Fact is PhotoAdded photo
            )
            {
                yield return (entry, photo);
            }
        }
    }

    /// <summary>The files of one photo: itself, and its thumbnail if it has one.</summary>
    public static IEnumerable<string> FilesOf(PhotoAdded photo)
    {
        ArgumentNullException.ThrowIfNull(photo);
        return photo.Thumbnail is { } small ? [photo.Sha256, small] : [photo.Sha256];
    }

    /// <summary>The hashes of all files that entries name.</summary>
    public static IReadOnlySet<string> Named(IEnumerable<Entry> entries) =>
        Photos(entries).SelectMany(held => FilesOf(held.Photo)).ToHashSet(StringComparer.Ordinal);

    /// <summary>
    /// The files that nothing names any more once these entries are in: what erasing entries among them leave behind.
    /// Asked before they are written, since afterwards nobody knows what the erased ones named.
    /// </summary>
    /// <param name="held">What the journal holds.</param>
    /// <param name="coming">What is about to be written.</param>
    public static IReadOnlySet<string> LetGo(IReadOnlyCollection<Entry> held, IReadOnlyList<Entry> coming)
    {
        ArgumentNullException.ThrowIfNull(held);
        ArgumentNullException.ThrowIfNull(coming);
        return LetGo(
            held,
            coming
                .Select(entry => entry.Envelope.Correction)
                .OfType<Correction>()
                .Where(correction => correction.Kind is CorrectionKind.Erases)
                .Select(correction => correction.Target)
                .ToHashSet()
        );
    }

    /// <summary>The files that nothing names any more once the facts of some entries are gone.</summary>
    /// <param name="held">What the journal holds.</param>
    /// <param name="erased">The entries to be erased.</param>
    public static IReadOnlySet<string> LetGo(
        IReadOnlyCollection<Entry> held,
        IReadOnlyCollection<EntryId> erased
    )
    {
        ArgumentNullException.ThrowIfNull(held);
        ArgumentNullException.ThrowIfNull(erased);
        if (erased.Count == 0)
        {
            return new HashSet<string>();
        }

        var going = Named(held.Where(entry => erased.Contains(entry.Id))).ToHashSet(StringComparer.Ordinal);
        going.ExceptWith(Named(held.Where(entry => !erased.Contains(entry.Id))));
        return going;
    }
}
