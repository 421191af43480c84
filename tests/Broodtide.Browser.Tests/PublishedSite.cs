using System.Diagnostics;

namespace Broodtide.Browser.Tests;

/// <summary>
/// The app as it is given to people: published once, into a folder. BROODTIDE_SITE names a folder that holds it
/// already.
/// </summary>
internal static class PublishedSite
{
    private static readonly Lazy<Task<string>> Folder = new(Publish);

    public static Task<string> GetFolder() => Folder.Value;

    public static string Root { get; } = FindRoot();

    private static async Task<string> Publish()
    {
        if (Environment.GetEnvironmentVariable("BROODTIDE_SITE") is { Length: > 0 } given)
        {
            return given;
        }

        var folder = Path.Combine(Root, "artifacts", "browser-tests", "site");
        if (Directory.Exists(Path.Combine(folder, "wwwroot")))
        {
            // Files of an earlier app would be counted with this one's.
            Directory.Delete(Path.Combine(folder, "wwwroot"), recursive: true);
        }

        using var publish =
            Process.Start(
                new ProcessStartInfo(
                    "dotnet",
                    ["publish", "src/Broodtide.Server", "-c", "Release", "-o", folder, "-v", "quiet"]
                )
                {
                    WorkingDirectory = Root,
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                    RedirectStandardError = true,
                }
            ) ?? throw new InvalidOperationException("dotnet did not start.");
        var said = publish.StandardOutput.ReadToEndAsync();
        var complained = publish.StandardError.ReadToEndAsync();
        await publish.WaitForExitAsync();
        return publish.ExitCode == 0
            ? folder
            : throw new InvalidOperationException($"Publishing failed.\n{await said}\n{await complained}");
    }

    private static string FindRoot()
    {
        for (
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            folder is not null;
            folder = folder.Parent
        )
        {
            if (File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The tests do not lie in the repository.");
    }
}
