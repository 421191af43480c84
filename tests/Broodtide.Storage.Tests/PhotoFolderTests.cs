using Broodtide.Storage.Photos;
using Broodtide.Workbench.Photos;

namespace Broodtide.Storage.Tests;

public sealed class PhotoFolderTests : IDisposable
{
    private static readonly byte[] Photo = [.. Enumerable.Range(0, 5000).Select(at => (byte)(at * 7))];

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void What_is_put_is_read_back_under_the_hash_of_its_bytes()
    {
        var photos = PhotoFolder.Open(_folder["photos"]);
        var (hash, isNew) = photos.Put(Photo);
        Assert.True(isNew);
        Assert.Equal(PhotoIntake.HashOf(Photo), hash);
        Assert.Equal(Photo, photos.Read(hash)!.Value);
        Assert.True(photos.Has(hash));
        Assert.Equal([hash], photos.All());
        Assert.Equal(Path.Combine(_folder["photos"], hash[..2], hash[2..4], hash), photos.PlaceOf(hash));
    }

    [Fact]
    public void Put_twice_it_is_there_once()
    {
        var photos = PhotoFolder.Open(_folder["photos"]);
        photos.Put(Photo);
        Assert.False(photos.Put(Photo).IsNew);
        Assert.Single(photos.All());
        Assert.Empty(Directory.GetFiles(Path.Combine(_folder["photos"], "coming")));
    }

    [Fact]
    public void What_is_removed_is_gone()
    {
        var photos = PhotoFolder.Open(_folder["photos"]);
        var (hash, _) = photos.Put(Photo);
        Assert.True(photos.Remove(hash));
        Assert.False(photos.Remove(hash));
        Assert.Null(photos.Read(hash));
        Assert.Empty(photos.All());
    }

    [Fact]
    public void A_damaged_file_is_named_and_not_given_out_and_put_right_when_it_comes_again()
    {
        var photos = PhotoFolder.Open(_folder["photos"]);
        var (hash, _) = photos.Put(Photo);
        File.WriteAllBytes(photos.PlaceOf(hash), Photo[..100]);
        var read = photos.Read(hash)!;
        Assert.Equal("photo-file-damaged", read.Reason?.Code);
        Assert.Equal(photos.PlaceOf(hash), read.Reason!["file"]);
        photos.Put(Photo);
        Assert.Equal(Photo, photos.Read(hash)!.Value);
    }

    [Theory]
    [InlineData("../../etc/passwd")]
    [InlineData("")]
    [InlineData("ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789")]
    public void Nothing_but_a_hash_becomes_a_path(string name)
    {
        var photos = PhotoFolder.Open(_folder["photos"]);
        Assert.Throws<ArgumentException>(() => photos.Read(name));
        Assert.Throws<ArgumentException>(() => photos.Remove(name));
        Assert.Throws<ArgumentException>(() => photos.Has(name));
    }

    [Fact]
    public void A_folder_is_made_only_when_a_photo_comes()
    {
        var photos = PhotoFolder.Beside(_folder["journal.db"]);
        Assert.Empty(photos.All());
        Assert.False(Directory.Exists(photos.Path));
        photos.Put(Photo);
        Assert.Equal(_folder["journal.photos"], photos.Path);
    }

    [Fact]
    public void What_a_sudden_end_left_is_swept_away_once_it_is_old()
    {
        var photos = PhotoFolder.Open(_folder["photos"]);
        photos.Put(Photo);
        var (old, young) = (
            Path.Combine(_folder["photos"], "coming", "old"),
            Path.Combine(_folder["photos"], "coming", "young")
        );
        File.WriteAllText(old, "half");
        File.WriteAllText(young, "half");
        File.SetLastWriteTimeUtc(old, TimeProvider.System.GetUtcNow().UtcDateTime.AddDays(-2));
        PhotoFolder.Open(_folder["photos"]);
        Assert.False(File.Exists(old));
        Assert.True(File.Exists(young));
        Assert.Single(photos.All());
    }
}
