using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Storage.Backups;

/// <summary>A folder of backups, each named by its instant, of which so many are kept.</summary>
public static class BackupFolder
{
    private const string Beginning = "broodtide-";
    private const string Ending = ".backup";

    private static readonly InstantPattern Stamp = InstantPattern.CreateWithInvariantCulture(
        "uuuuMMdd'T'HHmmss'Z'"
    );

    /// <summary>A name for a backup that is not taken.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="now">The instant of the backup.</param>
    public static string NewName(string folder, Instant now)
    {
        var name = Beginning + Stamp.Format(now);
        for (var number = 1; ; number++)
        {
            var path = Path.Combine(
                Path.GetFullPath(folder),
                number == 1
                    ? name + Ending
                    : string.Create(CultureInfo.InvariantCulture, $"{name}-{number}{Ending}")
            );
            if (!Path.Exists(path))
            {
                return path;
            }
        }
    }

    /// <summary>The backups in a folder that were named here, newest first.</summary>
    /// <param name="folder">The folder; may be missing.</param>
    public static IReadOnlyList<(string Path, Instant Made)> All(string folder)
    {
        if (!Directory.Exists(folder))
        {
            return [];
        }

        var found = new List<(string Path, Instant Made)>();
        foreach (var path in Directory.EnumerateFiles(Path.GetFullPath(folder), $"{Beginning}*{Ending}"))
        {
            var name = Path.GetFileName(path)[Beginning.Length..^Ending.Length];
            var stamp = Stamp.Parse(name.Split('-')[0]);
            if (stamp.Success && Restoring.IsBackup(path))
            {
                found.Add((path, stamp.Value));
            }
        }

        return
        [
            .. found
                .OrderByDescending(one => one.Made)
                .ThenByDescending(one => one.Path.Length)
                .ThenByDescending(one => one.Path, StringComparer.Ordinal),
        ];
    }

    /// <summary>Removes the oldest of more than so many. Only backups that bear a name given here are touched.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="keep">How many stay, one at least.</param>
    /// <param name="never">One that stays whatever its name says, as a clock may have been wrong.</param>
    /// <returns>What was removed.</returns>
    public static IReadOnlyList<string> Thin(string folder, int keep, string never)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(keep, 1);
        var others = All(folder)
            .Where(one => !string.Equals(one.Path, Path.GetFullPath(never), StringComparison.Ordinal));
        var removed = new List<string>();
        foreach (var (path, _) in others.Skip(keep - 1))
        {
            File.Delete(path);
            removed.Add(path);
        }

        return removed;
    }
}
