namespace Broodtide.Cli.Looking;

/// <summary>A file that is there whole or not at all: written beside its place and then named.</summary>
internal static class WholeFile
{
    /// <summary>Writes it, over one of the same name; a call that is broken off leaves what was there before.</summary>
    public static async Task WriteAsync(
        string path,
        ReadOnlyMemory<byte> bytes,
        CancellationToken cancellation
    )
    {
        var beside = $"{path}.{Guid.CreateVersion7():n}.part";
        try
        {
            await File.WriteAllBytesAsync(beside, bytes, cancellation);
            cancellation.ThrowIfCancellationRequested();
            File.Move(beside, path, overwrite: true);
        }
        finally
        {
            File.Delete(beside);
        }
    }
}
