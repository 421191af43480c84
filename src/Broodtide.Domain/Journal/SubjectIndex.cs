using System.Buffers.Binary;

namespace Broodtide.Domain.Journal;

/// <summary>Which occurrences speak of which subject, by their place in the order of telling.</summary>
public sealed class SubjectIndex
{
    private readonly Dictionary<Subject, List<int>> _positions = [];

    // The fold goes forward: where a subject is mentioned first never changes, so only a new one changes the order.
    private readonly Dictionary<SubjectKind, IReadOnlyList<Guid>> _inOrder = [];

    /// <summary>The fold that builds it.</summary>
    public static IFold<SubjectIndex> Fold { get; } = new IndexFold();

    /// <summary>Places of the occurrences that speak of a subject, ascending.</summary>
    public IReadOnlyList<int> PositionsOf(Subject subject) =>
        _positions.TryGetValue(subject, out var positions) ? positions : [];

    /// <summary>Every subject of a kind, in the order of first mention.</summary>
    public IEnumerable<Guid> Subjects(SubjectKind kind)
    {
        if (!_inOrder.TryGetValue(kind, out var subjects))
        {
            _inOrder[kind] = subjects = [
                .. _positions
                    .Where(subject => subject.Key.Kind == kind)
                    .OrderBy(subject => subject.Value[0])
                    .ThenBy(subject => subject.Key.Id)
                    .Select(subject => subject.Key.Id),
            ];
        }

        return subjects;
    }

    private sealed class IndexFold : IFold<SubjectIndex>
    {
        public string Name => "subject index";

        public int Version => 1;

        public SubjectIndex Start() => new();

        public SubjectIndex Next(SubjectIndex state, Occurrence occurrence, int position)
        {
            foreach (var subject in occurrence.Fact.Subjects())
            {
                if (!state._positions.TryGetValue(subject, out var positions))
                {
                    state._positions[subject] = positions = [];
                    state._inOrder.Remove(subject.Kind);
                }

                // A fact may name the same subject twice.
                if (positions.Count == 0 || positions[^1] != position)
                {
                    positions.Add(position);
                }
            }

            return state;
        }

        // Per subject: kind (1 byte), UUID (16), number of places (4), then the places (4 each), little-endian.
        public byte[] Save(SubjectIndex state)
        {
            var length = state._positions.Sum(subject => 21 + (4 * subject.Value.Count));
            var bytes = new byte[length];
            var rest = bytes.AsSpan();
            foreach (var (subject, positions) in state._positions)
            {
                rest[0] = (byte)subject.Kind;
                subject.Id.TryWriteBytes(rest[1..]);
                BinaryPrimitives.WriteInt32LittleEndian(rest[17..], positions.Count);
                rest = rest[21..];
                foreach (var position in positions)
                {
                    BinaryPrimitives.WriteInt32LittleEndian(rest, position);
                    rest = rest[4..];
                }
            }

            return bytes;
        }

        public SubjectIndex? Load(ReadOnlySpan<byte> bytes)
        {
            var state = new SubjectIndex();
            while (!bytes.IsEmpty)
            {
                if (bytes.Length < 21 || bytes[0] > (byte)SubjectKind.Entry)
                {
                    return null;
                }

                var subject = new Subject((SubjectKind)bytes[0], new Guid(bytes[1..17]));
                var count = BinaryPrimitives.ReadInt32LittleEndian(bytes[17..]);
                bytes = bytes[21..];
                if (count < 1 || count > bytes.Length / 4)
                {
                    return null;
                }

                var positions = new List<int>(count);
                for (var i = 0; i < count; i++)
                {
                    positions.Add(BinaryPrimitives.ReadInt32LittleEndian(bytes[(4 * i)..]));
                }

                bytes = bytes[(4 * count)..];
                state._positions[subject] = positions;
            }

            return state;
        }
    }
}
