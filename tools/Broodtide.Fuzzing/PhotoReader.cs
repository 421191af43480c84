using Broodtide.Workbench.Photos;

namespace Broodtide.Fuzzing;

/// <summary>Headers and pieces of photos. Pixel data are the codec's and are not decoded here.</summary>
internal static class PhotoReader
{
    public static void Read(byte[] bytes)
    {
        var taken = PhotoIntake.Take(bytes);
        if (taken.Succeeded && !PhotoIntake.Look(taken.Value.Bytes).Succeeded)
        {
            throw new InvalidOperationException("What was taken in is no photo.");
        }

        PhotoIntake.Take(bytes, keepPlace: true);
    }
}
