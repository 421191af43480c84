namespace Broodtide.Speed;

/// <summary>A folder under the temporary one, gone with its holder.</summary>
internal sealed class TakenFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("broodtide-speed-").FullName;

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
