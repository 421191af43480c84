using Broodtide.Storage.Photos;

namespace Broodtide.Durability;

/// <summary>Puts photos into a folder without end, and says each hash once it is confirmed. Somebody else ends it.</summary>
internal static class PhotoWriter
{
    public static int Run(string folder, int seed)
    {
        var photos = PhotoFolder.Open(folder);
        var random = new Random(seed);
        while (true)
        {
            var bytes = new byte[random.Next(1000, 400_000)];
            random.NextBytes(bytes);
            Console.WriteLine(photos.Put(bytes).Sha256);
        }
    }
}
