using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage;
using Broodtide.Storage.Sqlite;

namespace Broodtide.Durability;

/// <summary>
/// Looks at a copy of what a writer left, so that the next writer finds the store as the end left it and must
/// recover it itself, under the same disk.
/// </summary>
internal sealed class Look
{
    private readonly HashSet<string> _confirmed = [];

    /// <summary>How many entries must be there.</summary>
    public int Confirmed => _confirmed.Count;

    public async Task AtAsync(string folder, List<string> said, Outcome outcome, string when)
    {
        var fresh = said.Where(line => line.StartsWith("kept ", StringComparison.Ordinal))
            .SelectMany(line => line.Split(' ')[1..])
            .ToList();
        // A line that was torn by the end says less than a whole digest: it was never said.
        fresh.RemoveAll(digest => digest.Length != 2 * Digest.Length);
        _confirmed.UnionWith(fresh);
        outcome.Confirmed += fresh.Count;
        var copy = Directory.CreateTempSubdirectory("broodtide-look-").FullName;
        try
        {
            foreach (var file in Directory.GetFiles(folder))
            {
                File.Copy(file, Path.Combine(copy, Path.GetFileName(file)));
            }

            var path = Path.Combine(copy, Writer.StoreName);
            if (File.Exists(path) || _confirmed.Count > 0)
            {
                await ReadAsync(path, outcome, when);
            }
        }
        finally
        {
            Directory.Delete(copy, recursive: true);
        }
    }

    private async Task ReadAsync(string path, Outcome outcome, string when)
    {
        try
        {
            await using var journal = await SqliteJournal.OpenAsync(path, "look");
            foreach (var wrong in await journal.VerifyAsync())
            {
                outcome.Faults.Add($"{when}: {wrong}");
            }

            var entries = await journal.ReadAllAsync();
            var whole = entries
                .Where(entry => entry.HasBody)
                .Select(entry => entry.Digest.ToString())
                .ToHashSet(StringComparer.Ordinal);
            var lost = _confirmed.Count(digest => !whole.Contains(digest));
            if (lost > 0)
            {
                outcome.Lost += lost;
                outcome.Faults.Add($"{when}: {lost} confirmed entries are gone");
                _confirmed.IntersectWith(whole);
            }

            outcome.Unconfirmed += whole.Count(_confirmed.Add);
            Whole(entries, outcome, when);
        }
        catch (StoreUnusableException refused)
        {
            outcome.Faults.Add($"{when}: {refused.Reason}");
            outcome.Lost += _confirmed.Count;
            _confirmed.Clear();
        }
    }

    private static void Whole(IReadOnlyList<Entry> entries, Outcome outcome, string when)
    {
        var batches = entries.GroupBy(
            entry => ((NoteWritten)entry.Fact).Text.Split(' ')[0],
            StringComparer.Ordinal
        );
        foreach (var batch in batches.Where(batch => int.Parse(batch.Key.Split('/')[1]) != batch.Count()))
        {
            outcome.Faults.Add($"{when}: of batch {batch.Key} only {batch.Count()} are there");
        }

        foreach (var chain in entries.GroupBy(entry => entry.Envelope.Replica))
        {
            if (chain.Max(entry => entry.Envelope.Sequence) != chain.Count())
            {
                outcome.Faults.Add($"{when}: the chain of {chain.Key.Value} has gaps");
            }
        }
    }
}
