namespace Broodtide.Domain.Journal;

/// <summary>
/// A view as a total function of what happened: a first state, and what each occurrence does to it. It must not
/// fail on any occurrence and must depend on nothing else.
/// </summary>
/// <typeparam name="TState">The state; the fold may change it in place.</typeparam>
public interface IFold<TState>
    where TState : class
{
    /// <summary>Name under which its checkpoints are kept.</summary>
    string Name { get; }

    /// <summary>Raised whenever the meaning of a saved state changes; older checkpoints are then passed over.</summary>
    int Version { get; }

    /// <summary>The state before anything happened.</summary>
    TState Start();

    /// <summary>The state after one more occurrence.</summary>
    /// <param name="state">The state so far; may be changed and given back.</param>
    /// <param name="occurrence">What happened.</param>
    /// <param name="position">Its place in the order of telling, from 0.</param>
    TState Next(TState state, Occurrence occurrence, int position);

    /// <summary>The state as bytes.</summary>
    byte[] Save(TState state);

    /// <summary>The state of bytes, or none if they cannot be read.</summary>
    TState? Load(ReadOnlySpan<byte> bytes);
}

/// <summary>A state after a beginning of an account: may be kept anywhere and thrown away at any time.</summary>
/// <param name="Fold">Name of the fold.</param>
/// <param name="Version">Version of the fold.</param>
/// <param name="Position">How many occurrences it stands for.</param>
/// <param name="Mark">Which occurrences they are.</param>
/// <param name="State">The saved state.</param>
public sealed record Checkpoint(
    string Fold,
    int Version,
    int Position,
    PrefixMark Mark,
    ReadOnlyMemory<byte> State
);

/// <summary>
/// Runs a fold over an account that grows in any order. Late entries and corrections rewind it to the last
/// checkpoint before them, so its state always equals one computed from nothing.
/// </summary>
/// <typeparam name="TState">The state.</typeparam>
public sealed class Folding<TState> : IRestsOnBeginning
    where TState : class
{
    private readonly IFold<TState> _fold;
    private readonly PrefixMarks _marks;
    private readonly SortedDictionary<int, Checkpoint> _checkpoints = [];
    private TState? _state;
    private int _position;

    internal Folding(IFold<TState> fold, PrefixMarks marks)
    {
        _fold = fold;
        _marks = marks;
        _marks.Add(this);
    }

    /// <summary>The checkpoints that are known to hold, for storing.</summary>
    public IReadOnlyCollection<Checkpoint> Checkpoints => _checkpoints.Values;

    /// <summary>Offers a stored checkpoint. One that does not fit the account is passed over.</summary>
    /// <returns>Whether it will be used.</returns>
    public bool Offer(Checkpoint checkpoint)
    {
        if (
            !string.Equals(checkpoint.Fold, _fold.Name, StringComparison.Ordinal)
            || checkpoint.Version != _fold.Version
            || checkpoint.Position <= _position
            || !_marks.IsCheckpoint(checkpoint.Position)
            || _marks.At(checkpoint.Position) != checkpoint.Mark
            || _fold.Load(checkpoint.State.Span) is not { } state
        )
        {
            return false;
        }

        _checkpoints[checkpoint.Position] = checkpoint;
        _state = state;
        _position = checkpoint.Position;
        return true;
    }

    /// <summary>
    /// The state after every occurrence of the account. The fold may go on changing it when asked again, so read
    /// from it what is wanted and do not keep it.
    /// </summary>
    public TState State()
    {
        while (Advance(int.MaxValue))
        {
            // All at once.
        }

        return _state!;
    }

    /// <summary>Takes in some of the occurrences that <see cref="State"/> would, so that it has less to do.</summary>
    /// <param name="most">At most so many.</param>
    /// <returns>Whether any are left.</returns>
    public bool Advance(int most)
    {
        var state = _state ??= Restore();
        while (_position < _marks.Occurrences.Count && most-- > 0)
        {
            _state = state = _fold.Next(state, _marks.Occurrences[_position], _position);
            _position++;
            if (_marks.IsCheckpoint(_position) && _marks.At(_position) is { } mark)
            {
                _checkpoints[_position] = new(_fold.Name, _fold.Version, _position, mark, _fold.Save(state));
            }
        }

        return _position < _marks.Occurrences.Count;
    }

    void IRestsOnBeginning.Rewind(int position)
    {
        // Checkpoints may lie beyond the place reached, if it was rewound before.
        foreach (var later in _checkpoints.Keys.Where(key => key > position).ToList())
        {
            _checkpoints.Remove(later);
        }

        if (position < _position)
        {
            _state = null;
            _position = 0;
        }
    }

    private TState Restore()
    {
        foreach (var checkpoint in _checkpoints.Values.Reverse())
        {
            if (_fold.Load(checkpoint.State.Span) is { } state)
            {
                _position = checkpoint.Position;
                return state;
            }
        }

        _position = 0;
        return _fold.Start();
    }
}
