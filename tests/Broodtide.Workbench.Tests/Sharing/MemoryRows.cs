using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>A phone's rows in memory: what is here outlives the app, as what is on a phone's disk does.</summary>
internal sealed class MemoryRows : IRowStore
{
    private readonly Dictionary<Digest, StoredRow> _rows = [];

    // As a database's index has them, so that a page of rows costs no walk through all.
    private readonly Dictionary<Guid, List<(long Seq, Digest Digest)>> _order = [];
    private readonly Dictionary<string, byte[]> _facts = [];
    private readonly Dictionary<string, byte[]> _checkpoints = [];

    public IReadOnlyCollection<StoredRow> Rows => _rows.Values;

    public MemoryRows Copy()
    {
        var copy = new MemoryRows();
        foreach (var row in _rows)
        {
            copy._rows.Add(row.Key, row.Value);
            copy.Order(row.Value);
        }

        foreach (var fact in _facts)
        {
            copy._facts.Add(fact.Key, fact.Value);
        }

        return copy;
    }

    public Task Open() => Task.CompletedTask;

    public Task<int> Append(IReadOnlyCollection<StoredRow> rows)
    {
        var added = 0;
        foreach (var row in rows)
        {
            if (_rows.TryAdd(row.Digest, row))
            {
                Order(row);
                added++;
            }
            else if (_rows[row.Digest].IsErased && !row.IsErased)
            {
                _rows[row.Digest] = _rows[row.Digest] with { Salt = row.Salt, Body = row.Body };
            }
        }

        return Task.FromResult(added);
    }

    public Task<IReadOnlyList<StoredRow>> ReadAll() =>
        Task.FromResult<IReadOnlyList<StoredRow>>([.. _rows.Values]);

    public Task<IReadOnlyList<StoredRow>> ReadWaiting() =>
        Task.FromResult<IReadOnlyList<StoredRow>>([.. _rows.Values.Where(row => !row.Acknowledged)]);

    public Task<int> CountWaiting() => Task.FromResult(_rows.Values.Count(row => !row.Acknowledged));

    public Task<IReadOnlyList<StoredRow>> ReadAfter(Guid replica, long seq, int most)
    {
        var order = _order.GetValueOrDefault(replica) ?? [];
        var (from, to) = (0, order.Count);
        while (from < to)
        {
            var middle = (from + to) / 2;
            (from, to) = order[middle].Seq > seq ? (from, middle) : (middle + 1, to);
        }

        return Task.FromResult<IReadOnlyList<StoredRow>>([
            .. order.Skip(from).Take(most).Select(place => _rows[place.Digest]),
        ]);
    }

    public Task Acknowledge(IReadOnlyCollection<Digest> digests) =>
        Change(digests, row => row with { Acknowledged = true });

    public Task AwaitAgain(IReadOnlyCollection<Digest> digests) =>
        Change(digests, row => row with { Acknowledged = false });

    public Task Erase(IReadOnlyCollection<Digest> digests) =>
        Change(digests, row => row with { Salt = [], Body = [] });

    public Task PutFact(string name, ReadOnlyMemory<byte> bytes)
    {
        _facts[name] = bytes.ToArray();
        return Task.CompletedTask;
    }

    public Task<byte[]?> GetFact(string name) => Task.FromResult(_facts.GetValueOrDefault(name));

    public Task PutCheckpoint(string name, ReadOnlyMemory<byte> bytes)
    {
        _checkpoints[name] = bytes.ToArray();
        return Task.CompletedTask;
    }

    public Task<byte[]?> GetCheckpoint(string name) => Task.FromResult(_checkpoints.GetValueOrDefault(name));

    public Task ClearCheckpoints()
    {
        _checkpoints.Clear();
        return Task.CompletedTask;
    }

    private void Order(StoredRow row)
    {
        if (!_order.TryGetValue(row.Replica, out var order))
        {
            _order[row.Replica] = order = [];
        }

        var place = order.BinarySearch((row.Seq, row.Digest));
        order.Insert(place < 0 ? ~place : place, (row.Seq, row.Digest));
    }

    private Task Change(IReadOnlyCollection<Digest> digests, Func<StoredRow, StoredRow> change)
    {
        foreach (var digest in digests)
        {
            if (_rows.TryGetValue(digest, out var row))
            {
                _rows[digest] = change(row);
            }
        }

        return Task.CompletedTask;
    }
}

/// <summary>The pen of an app with one page.</summary>
internal sealed class OnePen : IPen, IDisposable
{
    private readonly SemaphoreSlim _turn = new(1, 1);

    public async Task<IDisposable> Take(CancellationToken cancel = default)
    {
        await _turn.WaitAsync(cancel);
        return new Hold(_turn);
    }

    public void Dispose() => _turn.Dispose();

    private sealed class Hold(SemaphoreSlim turn) : IDisposable
    {
        public void Dispose() => turn.Release();
    }
}
