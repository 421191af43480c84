namespace Broodtide.Durability.Works;

/// <summary>
/// Looks at a copy of what a work left, so that the next round finds everything as the end left it and must recover
/// itself, under the same disk.
/// </summary>
internal abstract class Look
{
    protected const string Kept = "kept ";

    /// <summary>How many things must be there.</summary>
    public abstract int Confirmed { get; }

    /// <summary>Hears what was said, then looks.</summary>
    public async Task AtAsync(string folder, IReadOnlyList<string> said, Outcome outcome, string when)
    {
        Hear(said, outcome);
        var copy = Directory.CreateTempSubdirectory("broodtide-look-").FullName;
        try
        {
            CopyTo(folder, copy);
            await ReadAsync(copy, outcome, when);
        }
        finally
        {
            Directory.Delete(copy, recursive: true);
        }

        Tidy(folder);
    }

    /// <summary>Takes in what was confirmed. The last line may be torn: it was never said then.</summary>
    protected abstract void Hear(IReadOnlyList<string> said, Outcome outcome);

    protected abstract Task ReadAsync(string copy, Outcome outcome, string when);

    /// <summary>Removes what was looked at and is of no more use.</summary>
    protected virtual void Tidy(string folder) { }

    private static void CopyTo(string from, string to)
    {
        foreach (var file in Directory.GetFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }

        foreach (var inside in Directory.GetDirectories(from))
        {
            CopyTo(inside, Directory.CreateDirectory(Path.Combine(to, Path.GetFileName(inside))).FullName);
        }
    }
}
