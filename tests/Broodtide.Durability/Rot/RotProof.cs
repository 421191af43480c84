using Broodtide.Storage;
using Microsoft.Data.Sqlite;

namespace Broodtide.Durability.Rot;

/// <summary>What changed bytes of one kind of file came to.</summary>
internal sealed class RotOutcome
{
    public int Times { get; set; }

    /// <summary>It was said that the file is damaged, and which.</summary>
    public int Found { get; set; }

    /// <summary>The bytes were of no meaning: everything reads as before.</summary>
    public int Harmless { get; set; }

    /// <summary>Something else is read, and nobody says so.</summary>
    public int Silent { get; set; }

    /// <summary>Of all things in the files that were found damaged, the share that could still be had.</summary>
    public double Saved { get; set; }

    /// <summary>Saved, and not what was put in.</summary>
    public int WronglySaved { get; set; }

    public static string Heads =>
        "| file | times | found and named | of no meaning | not found | of the rest still had | had and wrong |\n|---|---|---|---|---|---|---|";

    public string Row(string name) =>
        $"| {name} | {Times} | {Found} | {Harmless} | {Silent} | {(Found > 0 ? 100 * Saved / Found : 100):0.0} % | {WronglySaved} |";
}

/// <summary>A kind of file: made once, then damaged again and again in a copy.</summary>
internal abstract class RotKind
{
    public abstract string Name { get; }

    /// <summary>Whether a change that is not found is a fault; said in the documents where it is not.</summary>
    public virtual bool MustBeFound => true;

    /// <summary>Makes the folder, and gives the name of the file in it that is damaged.</summary>
    public abstract Task<string> MakeAsync(string folder);

    /// <summary>Looks at a damaged copy.</summary>
    public abstract Task<RotSeen> LookAsync(string folder, string file);
}

/// <summary>What a look at a damaged copy saw.</summary>
/// <param name="IsNamed">Whether it was said that the file is damaged.</param>
/// <param name="IsAsBefore">Whether everything reads as before.</param>
/// <param name="SavedShare">The share of things that can still be had, from 0 to 1.</param>
/// <param name="WronglySaved">How many of these are not what was put in.</param>
internal readonly record struct RotSeen(
    bool IsNamed,
    bool IsAsBefore,
    double SavedShare = 0,
    int WronglySaved = 0
);

/// <summary>Changes bytes of a file by chance: one bit, one sector of zeros, or the end cut off.</summary>
internal static class RotProof
{
    private const int Sector = 512;

    public static async Task<RotOutcome> RunAsync(RotKind kind, int times, int seed)
    {
        var outcome = new RotOutcome();
        var random = new Random(seed);
        using var folders = new Folders();
        var whole = Directory.CreateDirectory(Path.Combine(folders.Outside, "whole")).FullName;
        var file = await kind.MakeAsync(whole);
        SqliteConnection.ClearAllPools();
        for (; outcome.Times < times; outcome.Times++)
        {
            var copy = Path.Combine(folders.Disk, $"{outcome.Times}");
            Copy(whole, copy);
            Damage(Path.Combine(copy, file), random);
            RotSeen seen;
            try
            {
                seen = await kind.LookAsync(copy, file);
            }
            catch (StoreUnusableException refused) when (refused.Reason["file"] is not null)
            {
                seen = new(IsNamed: true, IsAsBefore: false);
            }

            outcome.Found += seen.IsNamed ? 1 : 0;
            outcome.Harmless += !seen.IsNamed && seen.IsAsBefore ? 1 : 0;
            outcome.Silent += !seen.IsNamed && !seen.IsAsBefore ? 1 : 0;
            outcome.Saved += seen.IsNamed ? seen.SavedShare : 0;
            outcome.WronglySaved += seen.WronglySaved;
            Directory.Delete(copy, recursive: true);
        }

        return outcome;
    }

    private static void Damage(string path, Random random)
    {
        var bytes = File.ReadAllBytes(path);
        var at = random.Next(bytes.Length);
        switch (random.Next(4))
        {
            case 0:
                File.WriteAllBytes(path, bytes[..at]);
                return;
            case 1:
                bytes
                    .AsSpan(at / Sector * Sector, Math.Min(Sector, bytes.Length - (at / Sector * Sector)))
                    .Clear();
                break;
            default:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
        }

        File.WriteAllBytes(path, bytes);
    }

    private static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var file in Directory.GetFiles(from))
        {
            // A mark of a life does not go with a copy.
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }

        foreach (var inside in Directory.GetDirectories(from))
        {
            Copy(inside, Path.Combine(to, Path.GetFileName(inside)));
        }
    }
}
