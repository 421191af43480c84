using System.Diagnostics;

namespace Broodtide.Postgres.Tests.Kit;

/// <summary>The programs of PostgreSQL on this machine, and how they are run as somebody who is not root.</summary>
internal static class Programs
{
    // PostgreSQL refuses to run as root; Debian's package makes this user.
    private const string Debians = "postgres";

    public static bool IsRoot { get; } = OperatingSystem.IsLinux() && Environment.UserName == "root";

    /// <summary>Where a program lies; none where it is not installed.</summary>
    public static string? Find(string program)
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .ToList();
        const string debian = "/usr/lib/postgresql";
        if (Directory.Exists(debian))
        {
            folders.AddRange(
                Directory
                    .EnumerateDirectories(debian)
                    .OrderByDescending(folder =>
                        int.TryParse(Path.GetFileName(folder), out var version) ? version : 0
                    )
                    .Select(folder => Path.Combine(folder, "bin"))
            );
        }

        return folders.Select(folder => Path.Combine(folder, program)).FirstOrDefault(File.Exists);
    }

    /// <summary>Runs a program of PostgreSQL to its end; what it said is thrown where it failed.</summary>
    public static string Run(string program, params string[] words)
    {
        // Output goes to files: a server that is started keeps the pipes of its starter open.
        var said = Path.GetTempFileName();
        try
        {
            var quoted = string.Join(
                ' ',
                words
                    .Prepend(program)
                    .Select(word => $"'{word.Replace("'", "'\\''", StringComparison.Ordinal)}'")
            );
            var start = new ProcessStartInfo("/bin/sh", ["-c", $"{AsWho}{quoted} > {said} 2>&1"])
            {
                UseShellExecute = false,
                WorkingDirectory = Path.GetTempPath(),
            };
            using var process = Process.Start(start)!;
            process.WaitForExit();
            var text = File.ReadAllText(said);
            return process.ExitCode == 0
                ? text
                : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {text}");
        }
        finally
        {
            File.Delete(said);
        }
    }

    /// <summary>Gives a folder to the user that PostgreSQL runs as.</summary>
    public static void GiveAway(string folder)
    {
        if (IsRoot)
        {
            using var process = Process.Start("chown", ["-R", Debians, folder]);
            process.WaitForExit();
            Assert.Equal(0, process.ExitCode);
        }
    }

    private static string AsWho => IsRoot ? $"runuser -u {Debians} -- " : "";
}
