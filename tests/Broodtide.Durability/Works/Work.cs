namespace Broodtide.Durability.Works;

/// <summary>One kind of work that writes: what a program does over and over until somebody ends it, and what must be left then.</summary>
internal abstract class Work
{
    /// <summary>Every kind, by name.</summary>
    public static IReadOnlyDictionary<string, Work> All { get; } =
        new Work[]
        {
            new AppendWork(),
            new PhotoWork(),
            new ImportWork(),
            new MigrationWork(),
            new BackupWork(),
            new RestoreWork(),
        }.ToDictionary(work => work.Name, StringComparer.Ordinal);

    public abstract string Name { get; }

    /// <summary>A sudden end comes within so many lines that were said.</summary>
    public abstract int MostLines { get; }

    /// <summary>A power cut comes within so many changes of the disk.</summary>
    public abstract int MostChanges { get; }

    /// <summary>Does it once, from opening to closing.</summary>
    public abstract Task RoundAsync(Bench bench);

    /// <summary>What looks at the folder after each end.</summary>
    public abstract Look NewLook();
}

/// <summary>Where a work is done.</summary>
/// <param name="Folder">What the work writes into; the disk under it may forget or be full.</param>
/// <param name="Outside">A folder beside it on a disk that does neither.</param>
/// <param name="Random">All chance.</param>
/// <param name="Say">Tells what is confirmed, after it was confirmed.</param>
/// <param name="IsPlanted">Whether the store is told not to sync, which must be found out.</param>
/// <param name="Most">How much a round does at most.</param>
internal sealed record Bench(
    string Folder,
    string Outside,
    Random Random,
    Func<string, Task> Say,
    bool IsPlanted,
    int Most
);
