using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage;
using Broodtide.Storage.Sqlite;

namespace Broodtide.Durability.Works;

/// <summary>Every confirmed entry is there with its facts, every batch whole, every chain without a gap.</summary>
internal class JournalLook : Look
{
    private readonly HashSet<string> _confirmed = [];
    private int _written;

    public override int Confirmed => _confirmed.Count;

    protected override void Hear(IReadOnlyList<string> said, Outcome outcome)
    {
        var fresh = said.Where(line => line.StartsWith(Kept, StringComparison.Ordinal))
            .SelectMany(line => line.Split(' ')[1..])
            .Where(digest => digest.Length == 2 * Digest.Length)
            .ToList();
        _confirmed.UnionWith(fresh);
        outcome.Confirmed += fresh.Count;
        foreach (var line in said.Where(line => line.StartsWith("written ", StringComparison.Ordinal)))
        {
            _written = line.EndsWith('.') ? int.Parse(line.Split(' ')[1].TrimEnd('.')) : _written;
        }
    }

    protected override async Task ReadAsync(string copy, Outcome outcome, string when)
    {
        Written(Path.Combine(copy, ImportWork.FileName), outcome, when);
        var path = Path.Combine(copy, Batches.StoreName);
        if (!File.Exists(path) && _confirmed.Count == 0)
        {
            return;
        }

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

    // The file that a journal is written out to: whole under its name, and never older than was confirmed.
    private void Written(string path, Outcome outcome, string when)
    {
        var read = File.Exists(path) ? JournalFile.Read(path) : null;
        if (read is { Succeeded: false } || (read?.Value.Count ?? 0) < _written)
        {
            outcome.Faults.Add(
                $"{when}: the written journal is {read?.Reason?.ToString() ?? "gone or older"}"
            );
            outcome.Lost += _written;
            _written = 0;
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
