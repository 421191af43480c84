using Broodtide.Photos;
using Broodtide.Science.Imaging;

namespace Broodtide.Looking;

/// <summary>Reads the pictures of a set.</summary>
public static class Pictures
{
    public static Picture Read(string path)
    {
        var picture = PictureFile.Decode(File.ReadAllBytes(path));
        return picture.Succeeded
            ? picture.Value
            : throw new InvalidDataException($"{path}: {picture.Reason}");
    }

    public static (float[] Grey, GridShape Shape) Grey(string path)
    {
        var picture = Read(path);
        return (picture.ToGrey(), picture.Shape);
    }
}
