namespace Broodtide.Storage.Backups;

/// <summary>Folders that are thrown away.</summary>
internal static class Scratch
{
    public static void Remove(string folder)
    {
        try
        {
            if (Directory.Exists(folder))
            {
                Directory.Delete(folder, recursive: true);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // It is swept away later; what went wrong before is the thing to tell.
        }
    }
}
