namespace Broodtide.Phone.Keeping;

/// <summary>What open pages work out beside the outlook, so that it can be told when nothing more will come.</summary>
internal sealed class PageWork
{
    private int _running;

    /// <summary>Whether a page is at work.</summary>
    public bool IsBusy => _running > 0;

    /// <summary>Work began or ended.</summary>
    public event Action? Changed;

    /// <summary>A piece of work that ends when it is disposed.</summary>
    public IDisposable Begin()
    {
        _running++;
        Changed?.Invoke();
        return new Ending(this);
    }

    private sealed class Ending(PageWork work) : IDisposable
    {
        private bool _isOver;

        public void Dispose()
        {
            if (!_isOver)
            {
                _isOver = true;
                work._running--;
                work.Changed?.Invoke();
            }
        }
    }
}
