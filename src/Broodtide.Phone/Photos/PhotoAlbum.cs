using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Phone.Keeping;

namespace Broodtide.Phone.Photos;

/// <summary>One photo as it is told now.</summary>
/// <param name="Id">The entry it began with.</param>
/// <param name="Happened">When it shows what it shows.</param>
/// <param name="Photo">What is said of it.</param>
public sealed record KeptPhoto(EntryId Id, Happened Happened, PhotoAdded Photo);

/// <summary>The photos of the journal by what they go with; looked up once after each change of it.</summary>
internal sealed class PhotoAlbum(Desk desk)
{
    private House? _of;
    private IReadOnlyList<KeptPhoto> _all = [];
    private ILookup<EntryId, KeptPhoto> _byEntry = Array.Empty<KeptPhoto>().ToLookup(photo => photo.Id);

    /// <summary>The photos that go with an entry, as told now.</summary>
    public IEnumerable<KeptPhoto> With(EntryId entry)
    {
        Look();
        return _byEntry[entry];
    }

    /// <summary>The newest photos of a vessel.</summary>
    public IReadOnlyList<KeptPhoto> Of(VesselId vessel, int most)
    {
        Look();
        return [.. _all.Where(photo => photo.Photo.Vessel == vessel).TakeLast(most).Reverse()];
    }

    /// <summary>The newest photos of a run.</summary>
    public IReadOnlyList<KeptPhoto> Of(RunId run, int most)
    {
        Look();
        return [.. _all.Where(photo => photo.Photo.Run == run).TakeLast(most).Reverse()];
    }

    private void Look()
    {
        // The desk makes a new house after each change.
        if (ReferenceEquals(_of, desk.House))
        {
            return;
        }

        _of = desk.House;
        _all =
        [
            .. desk
                .Account.Occurrences.Where(told => told.Told.Envelope.Kind == "photo added")
                .Where(told => told.Fact is PhotoAdded)
                .Select(told => new KeptPhoto(told.Id, told.Happened, (PhotoAdded)told.Fact)),
        ];
        _byEntry = _all.Where(photo => photo.Photo.Entry is not null)
            .ToLookup(photo => photo.Photo.Entry!.Value);
    }
}
