namespace Broodtide.Domain.Journal;

/// <summary>
/// Entries that are tied together by corrections, and which of their words stand. They hang from one entry like a
/// tree: every entry has at most one target. The rule is the same at every place of the tree: of the corrections
/// of one entry that were not themselves taken back, the latest by (written, replica, running number) stands;
/// where it retracts, the entry is taken back, and if that was a correction it no longer competes.
/// </summary>
internal sealed class CorrectionTree
{
    private readonly Dictionary<EntryId, Node> _nodes = [];
    private readonly Node? _top;

    /// <summary>Grows the tree of entries that are all tied together, each of another identity.</summary>
    public CorrectionTree(IReadOnlyList<Entry> members)
    {
        foreach (var member in members)
        {
            _nodes.Add(member.Id, new Node(member));
        }

        foreach (var member in members)
        {
            if (Corrections.TargetOf(member) is { } target)
            {
                // A target that is not here (yet) still makes rivals of those that are aimed at it.
                if (!_nodes.TryGetValue(target, out var parent))
                {
                    _nodes.Add(target, parent = new Node(null));
                }

                parent.Adopt(_nodes[member.Id]);
            }
        }

        if (_nodes.Count > 0)
        {
            _top = Top();
            Resolve(_top);
        }
    }

    /// <summary>Every identity in the tree, those that are not here included.</summary>
    public IReadOnlyCollection<EntryId> Identities => _nodes.Keys;

    /// <summary>The one thing that the tree tells, or none if it was taken back.</summary>
    public Occurrence? Tells()
    {
        if (_top?.End is not { TellsSomething: true, Entry: { } told })
        {
            return null;
        }

        Entry? first = null;
        var hasRivals = false;
        for (var node = _top; node is not null; node = node.Latest)
        {
            first ??= node.TellsSomething ? node.Entry : null;
            hasRivals |= node.Competing.Count > 1;
        }

        return new Occurrence(told, first ?? told, hasRivals);
    }

    /// <summary>The corrections of one entry that compete, the one that stands last.</summary>
    public IReadOnlyList<Entry> CompetingFor(EntryId id) =>
        _nodes.TryGetValue(id, out var node) ? [.. node.Competing.Select(child => child.Entry!)] : [];

    /// <summary>How an entry of the tree stands.</summary>
    public Standing StandingOf(EntryId id)
    {
        var node = _nodes[id];
        if (node.TakenBack)
        {
            return Standing.TakenBack;
        }

        if (node.End != node)
        {
            return Standing.Replaced;
        }

        if (node.IsRetraction)
        {
            return node.Parent is null || node.Parent.Latest == node
                ? Standing.TakesBack
                : Standing.LostToRival;
        }

        for (var child = node; child.Parent is { } parent; child = parent)
        {
            if (parent.Latest != child)
            {
                return child.TakenBack ? Standing.TakenBack : Standing.LostToRival;
            }
        }

        return Standing.Stands;
    }

    // Entries that correct each other in a ring have no top: the first of the ring by writing serves as one.
    private Node Top()
    {
        var seen = new HashSet<Node>();
        var node = _nodes.Values.First();
        while (seen.Add(node))
        {
            if (node.Parent is null)
            {
                return node;
            }

            node = node.Parent;
        }

        var first = node;
        for (var next = node.Parent!; next != node; next = next.Parent!)
        {
            first = OrderOfTelling.ByWriting(next.Entry!, first.Entry!) < 0 ? next : first;
        }

        first.Leave();
        return first;
    }

    // From the outermost corrections inwards, without recursion: a chain may be as long as somebody cares to write.
    private static void Resolve(Node top)
    {
        var order = new List<Node> { top };
        for (var i = 0; i < order.Count; i++)
        {
            order.AddRange(order[i].Children);
        }

        for (var i = order.Count - 1; i >= 0; i--)
        {
            order[i].Resolve();
        }
    }

    private sealed class Node(Entry? entry)
    {
        public Entry? Entry { get; } = entry;

        public Node? Parent { get; private set; }

        public List<Node> Children { get; } = [];

        /// <summary>Corrections that were not taken back, by writing.</summary>
        public List<Node> Competing { get; private set; } = [];

        /// <summary>The correction that stands.</summary>
        public Node? Latest => Competing.Count > 0 ? Competing[^1] : null;

        /// <summary>Where the chain of corrections that stand ends.</summary>
        public Node? End { get; private set; }

        public bool TakenBack => End != this && End!.IsRetraction;

        public bool IsRetraction => Entry?.Envelope.Correction is { Kind: CorrectionKind.Retracts };

        public bool TellsSomething =>
            Entry is { Envelope.Correction: null or { Kind: CorrectionKind.Replaces } };

        public void Adopt(Node child)
        {
            child.Parent = this;
            Children.Add(child);
        }

        public void Leave()
        {
            Parent!.Children.Remove(this);
            Parent = null;
        }

        public void Resolve()
        {
            Competing = [.. Children.Where(child => !child.TakenBack)];
            Competing.Sort((x, y) => OrderOfTelling.ByWriting(x.Entry!, y.Entry!));
            End = Latest is null ? this : Latest.End;
        }
    }
}
