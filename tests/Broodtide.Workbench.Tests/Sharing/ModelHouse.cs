using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>A house with the real gate over a store and a memory that outlive it, and may be put back.</summary>
internal sealed class ModelHouse : IPeopleOfTheHouse, IDisposable
{
    private readonly IReadOnlyList<Visitor> _people;
    private readonly bool _keepsItsReplica;
    private Gate _gate;

    public ModelHouse(IReadOnlyList<Visitor> people, bool keepsItsReplica = false)
    {
        (_people, _keepsItsReplica) = (people, keepsItsReplica);
        Journal = new MemoryJournal(NewReplica());
        _gate = new Gate(Journal, Memory, this, Clock);
    }

    public ModelClock Clock { get; } = new();

    public ISharedJournal Journal { get; private set; }

    public MemoryHouse Memory { get; private set; } = new();

    public Gate Gate => _gate;

    public OwnersGate Owner => new(_gate);

    public IReadOnlyList<SigningName> Names() =>
        [.. _people.Select(person => new SigningName(person.Person, person.Name))];

    /// <summary>A request as it comes over the way.</summary>
    public async Task<byte[]> AskAsync(Visitor visitor, string request, byte[] body)
    {
        var answer = await new GateDoor(_gate).AskAsync(request, visitor, body);
        return answer.Succeeded
            ? answer.Value
            : throw HouseRefusedException.Of(GateDoor.TextOf(answer.Reason));
    }

    public void Dispose() => _gate.Dispose();

    public void Restart() => Open();

    public async Task<(IReadOnlyList<Entry> Entries, MemoryHouse Memory)> CopyAsync() =>
        (await Journal.ReadAllAsync(), Memory.Copy());

    /// <summary>Put back to an older copy: another life of the store, so another replica.</summary>
    public async Task PutBackAsync((IReadOnlyList<Entry> Entries, MemoryHouse Memory) copy)
    {
        var life = new MemoryJournal(NewReplica());
        await life.TakeAsync(copy.Entries);
        Journal = _keepsItsReplica
            ? new SameLife(life, (Journal as SameLife)?.Replica ?? Journal.Replica)
            : life;
        Memory = copy.Memory.Copy();
        Open();
    }

    public async Task<Entry> WriteAsync(string text)
    {
        var keeper = new Keeper(new Author("Broodtide", "1.0"), Clock, DateTimeZone.Utc, Guid.CreateVersion7);
        return (await Journal.AppendAsync([keeper.Write(new NoteWritten(text))]))[0];
    }

    private void Open()
    {
        _gate.Dispose();
        _gate = new Gate(Journal, Memory, this, Clock);
    }

    private static ReplicaId NewReplica() => new(Guid.CreateVersion7());

    /// <summary>A planted fault: after it was put back, the store goes on under its old name.</summary>
    private sealed class SameLife(MemoryJournal store, ReplicaId replica) : ISharedJournal
    {
        public ReplicaId Replica => replica;

        public ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
            store.ReadAllAsync(cancellation);

        public async ValueTask<IReadOnlyList<Entry>> AppendAsync(
            IReadOnlyList<Draft> drafts,
            CancellationToken cancellation = default
        )
        {
            var written = new List<Entry>();
            foreach (var draft in drafts)
            {
                var own = await store.ReadAfterAsync(replica, 0, int.MaxValue, cancellation);
                var last = own.Count > 0 ? own[^1] : null;
                var entry = draft.Seal(
                    replica,
                    (last?.Envelope.Sequence ?? 0) + 1,
                    last?.Digest,
                    Guid.NewGuid().ToByteArray()
                );
                await store.TakeAsync([entry], cancellation);
                written.Add(entry);
            }

            return written;
        }

        public ValueTask<Intake> TakeAsync(
            IReadOnlyList<Entry> entries,
            CancellationToken cancellation = default
        ) => store.TakeAsync(entries, cancellation);

        public ValueTask<IReadOnlyList<Arrival>> ArrivedSinceAsync(
            long place,
            CancellationToken cancellation = default
        ) => store.ArrivedSinceAsync(place, cancellation);

        public ValueTask<IReadOnlyList<Entry>> ReadAfterAsync(
            ReplicaId of,
            long after,
            int most,
            CancellationToken cancellation = default
        ) => store.ReadAfterAsync(of, after, most, cancellation);

        public ValueTask<IReadOnlySet<ReplicaId>> OwnReplicasAsync(
            CancellationToken cancellation = default
        ) => ValueTask.FromResult<IReadOnlySet<ReplicaId>>(new HashSet<ReplicaId> { replica });

        public ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(
            CancellationToken cancellation = default
        ) => store.CheckpointsAsync(cancellation);

        public ValueTask KeepAsync(
            IReadOnlyList<Checkpoint> checkpoints,
            CancellationToken cancellation = default
        ) => store.KeepAsync(checkpoints, cancellation);

        public ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
            store.ForgetCheckpointsAsync(cancellation);

        public ValueTask DisposeAsync() => store.DisposeAsync();
    }
}
