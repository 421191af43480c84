namespace Broodtide.Workbench;

/// <summary>
/// Something that takes long, worked out in pieces: piece by piece by whoever may not be held up, or the rest at once
/// by whoever asks for it.
/// </summary>
/// <typeparam name="T">What comes of it.</typeparam>
internal sealed class Piecewise<T>(Func<IEnumerable<T?>> pieces)
    where T : class
{
    private IEnumerator<T?>? _running;
    private T? _value;

    /// <summary>How many pieces are done.</summary>
    public int Pieces { get; private set; }

    /// <summary>Whether all is done.</summary>
    public bool IsDone { get; private set; }

    /// <summary>What the last piece gave; works out nothing.</summary>
    public T? SoFar => _value;

    /// <summary>What comes of it; works out what is left.</summary>
    public T? Value
    {
        get
        {
            while (!IsDone)
            {
                Advance();
            }

            return _value;
        }
    }

    /// <summary>Works out one more piece.</summary>
    public void Advance()
    {
        if (IsDone)
        {
            return;
        }

        Pieces++;
        _running ??= pieces().GetEnumerator();
        if (_running.MoveNext())
        {
            _value = _running.Current;
        }
        else
        {
            IsDone = true;
            _running.Dispose();
            _running = null;
        }
    }
}
