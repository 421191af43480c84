using Microsoft.Win32.SafeHandles;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// The mark of a store that is open, its file held open with it: to open it and to ask which file the store is takes a
/// good part of what one entry costs. A mark that was deleted meanwhile is made anew when the store is opened again. Not for
/// several threads at once.
/// </summary>
/// <param name="place">The store, or what stands for it, whose mark is at <see cref="LifeMark.PathOf"/>.</param>
/// <param name="identity">Tells which store it is, as the mark keeps it; asked when a life begins.</param>
internal sealed class HeldMark(string place, Func<string> identity) : IDisposable
{
    private SafeFileHandle? _file;
    private Guid _life;
    private byte[] _whole = [];
    private bool _isLetGo;

    /// <summary>
    /// Moves the mark on. It need not be on the disk: after a power cut it may lag behind the store, never lead it, because it
    /// is moved after the commit. A mark that cannot be written lags behind too, which is no fault, and so does one that was
    /// let go.
    /// </summary>
    /// <param name="life">The life that the store names inside.</param>
    /// <param name="last">Number of the last entry row.</param>
    public void MoveOn(Guid life, long last)
    {
        if (_isLetGo)
        {
            return;
        }

        try
        {
            if (_file is null || life != _life)
            {
                Close();
                _whole = new LifeMark(life, identity(), last).Bytes();
                _life = life;
                _file = LifeMark.ToWrite(place);
            }

            // All of it each time, so that no number ever stands beside a life that another program wrote.
            var number = LifeMark.LastOf(last);
            number.CopyTo(_whole, _whole.Length - number.Length);
            RandomAccess.Write(_file, _whole, 0);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Close();
        }
    }

    public void Dispose()
    {
        _isLetGo = true;
        Close();
    }

    private void Close()
    {
        _file?.Dispose();
        _file = null;
    }
}
