using Broodtide.Units;

namespace Broodtide.Workbench.Dossiers;

/// <summary>Whether the place of a file stays inside its package, on every system that it may be unpacked on.</summary>
public static class PackagePath
{
    private const int Longest = 200;

    // Names that one system keeps for devices, whatever ending they have.
    private static readonly string[] Devices = ["con", "prn", "aux", "nul"];

    /// <summary>Why a place is refused; none for one that is fine.</summary>
    /// <param name="path">Letters, figures, and - _ . in parts that are joined by slashes.</param>
    public static Remark? WrongWith(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return
            path.Length is 0 or > Longest
            || path.Any(sign => !char.IsAsciiLetterOrDigit(sign) && sign is not ('-' or '_' or '.' or '/'))
            || path.Split('/').Any(IsUnsafe)
            ? new Remark("package-path-unsafe", new Argument("file", Shown(path)))
            : null;
    }

    // What is shown of a place that is not to be trusted.
    private static string Shown(string path) =>
        new([.. path.Take(Longest).Select(sign => char.IsControl(sign) ? '\ufffd' : sign)]);

    private static bool IsUnsafe(string part) =>
        part.Length == 0
        || part[0] == '.'
        || part[^1] == '.'
        || Devices.Contains(part.Split('.')[0], StringComparer.OrdinalIgnoreCase)
        || (
            part.Length >= 4
            && (
                part.StartsWith("com", StringComparison.OrdinalIgnoreCase)
                || part.StartsWith("lpt", StringComparison.OrdinalIgnoreCase)
            )
            && char.IsAsciiDigit(part[3])
            && (part.Length == 4 || part[4] == '.')
        );
}
