namespace Broodtide.Phone.Browser;

/// <summary>Files handed to the keeper.</summary>
internal static class Files
{
    public static void Download(string name, string mediaType, ReadOnlySpan<byte> bytes)
    {
        using var array = Bytes.ToScript(bytes);
        Glue.Download(name, mediaType, array);
    }
}
