using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.Browser;

/// <summary>
/// One pen for all tabs of this app: who holds it may number the next entry. Take it, read what others wrote, write,
/// put it down.
/// </summary>
internal sealed class Pen : IPen, IDisposable
{
    private readonly SemaphoreSlim _turn = new(1, 1);

    public async Task<IDisposable> Take(CancellationToken cancel = default)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            await Glue.TakePen();
            return new Hold(_turn);
        }
        catch
        {
            _turn.Release();
            throw;
        }
    }

    public void Dispose() => _turn.Dispose();

    private sealed class Hold(SemaphoreSlim turn) : IDisposable
    {
        private bool _isDown;

        public void Dispose()
        {
            if (_isDown)
            {
                return;
            }

            _isDown = true;
            Glue.PutPenDown();
            turn.Release();
        }
    }
}
