namespace Broodtide.Server.Tests.Kit;

internal sealed class TemporaryFolder : IDisposable
{
    public DirectoryInfo Folder { get; } = Directory.CreateTempSubdirectory("broodtide-test-");

    public string File(string name) => Path.Combine(Folder.FullName, name);

    public void Dispose() => Folder.Delete(recursive: true);
}
