using System.Text.RegularExpressions;
using Broodtide.Cli.Door;
using Broodtide.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Cli.Looking;

/// <summary>
/// Pictures named on the command line: files one by one in the order said, or a folder with all pictures in it by name,
/// numbers in the names by their size. They are found first and opened one at a time, so that whoever needs one at a time
/// holds one at a time.
/// </summary>
internal static partial class PicturesRead
{
    /// <summary>The largest file that is opened, in bytes: a picture of the largest sensors without loss.</summary>
    public const long LargestFileBytes = 500_000_000;

    private static readonly string[] Endings = [".jpg", ".jpeg", ".png", ".webp", ".bmp", ".gif"];

    /// <summary>The files; what is not there is added to what is wrong.</summary>
    public static IReadOnlyList<string> Find(Said said, Slot files)
    {
        var found = new List<string>();
        foreach (var path in said.Texts(files))
        {
            if (Directory.Exists(path))
            {
                var inside = Directory
                    .EnumerateFiles(path)
                    .Where(file =>
                        Endings.Contains(Path.GetExtension(file), StringComparer.OrdinalIgnoreCase)
                    )
                    .OrderBy(
                        file => Number().Replace(Path.GetFileName(file), n => n.Value.PadLeft(20, '0')),
                        StringComparer.Ordinal
                    )
                    .ToList();
                if (inside.Count == 0)
                {
                    said.Add(new Remark("folder-without-pictures", new Argument("folder", path)));
                }

                found.AddRange(inside);
            }
            else if (File.Exists(path))
            {
                found.Add(path);
            }
            else
            {
                said.Add(new Remark("file-not-there", new Argument("file", path)));
            }
        }

        return found;
    }

    /// <summary>
    /// The one picture that was named, open; none where something is wrong already, where it cannot be opened or where
    /// there is not one: then it is said.
    /// </summary>
    public static async Task<(string Path, Picture Picture)?> OneAsync(
        Said said,
        Slot file,
        CancellationToken cancellation
    )
    {
        var paths = Find(said, file);
        if (said.Wrong.Count == 0 && paths.Count != 1)
        {
            said.Add(new Remark("one-picture-wanted", new("field", file.Name), new("pictures", paths.Count)));
        }

        return said.Wrong.Count == 0 && await OpenAsync(said, paths[0], cancellation) is { } picture
            ? (paths[0], picture)
            : null;
    }

    /// <summary>Opens one; what it says no for is added to what is wrong, after the name of the file.</summary>
    public static async Task<Picture?> OpenAsync(Said said, string path, CancellationToken cancellation)
    {
        var read =
            new FileInfo(path).Length > LargestFileBytes
                ? Parsed<Picture>.No(
                    "picture-file-too-large",
                    new Argument("mostMegabytes", LargestFileBytes / 1_000_000)
                )
                : PictureFile.Decode(await File.ReadAllBytesAsync(path, cancellation));
        if (!read.Succeeded)
        {
            said.Add(new Remark("picture-refused", new Argument("file", path)));
            said.Add(read.Reason);
            return null;
        }

        return read.Value;
    }

    /// <summary>
    /// The hash a picture goes by in the journal: of the file with what is not the picture left out, as it would be kept;
    /// of the whole file where it is of a sort that is not kept.
    /// </summary>
    public static async Task<string> HashAsync(string path, CancellationToken cancellation)
    {
        var file = await File.ReadAllBytesAsync(path, cancellation);
        var taken = PhotoIntake.Take(file);
        return taken.Succeeded ? taken.Value.Sha256 : PhotoIntake.HashOf(file);
    }

    /// <summary>Opens all, one after the other; none if one cannot be opened.</summary>
    public static async Task<IReadOnlyList<Picture>?> OpenAllAsync(
        Said said,
        IReadOnlyList<string> paths,
        CancellationToken cancellation
    )
    {
        var pictures = new List<Picture>();
        foreach (var path in paths)
        {
            if (await OpenAsync(said, path, cancellation) is { } picture)
            {
                pictures.Add(picture);
            }
        }

        return pictures.Count == paths.Count ? pictures : null;
    }

    [GeneratedRegex("[0-9]+", RegexOptions.None, 1000)]
    private static partial Regex Number();
}
