using Microsoft.Win32.SafeHandles;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// The mark of a store that is open, its file held open with it: to open it and to ask which file the store is takes a
/// good part of what one entry costs. Not for several threads at once.
/// </summary>
/// <param name="store">The store, whose mark is at <see cref="LifeMark.PathOf"/>.</param>
/// <param name="file">Tells which store it is, as the mark keeps it; asked when a mark is written whole.</param>
internal sealed class HeldMark(string store, Func<string> file) : IDisposable
{
    private SafeFileHandle? _file;
    private Guid _life;
    private long _place;

    /// <summary>
    /// Moves the mark on. It need not be on the disk: after a power cut it may lag behind the store, never lead it, because it
    /// is moved after the commit. A mark that cannot be written lags behind too, which is no fault.
    /// </summary>
    /// <param name="life">The life that the store names inside; another one than before is written whole.</param>
    /// <param name="last">Number of the last entry row.</param>
    public void MoveOn(Guid life, long last)
    {
        try
        {
            if (_file is { } held && life == _life)
            {
                RandomAccess.Write(held, LifeMark.LastOf(last), _place);
                return;
            }

            Dispose();
            var whole = new LifeMark(life, file(), last).Bytes();
            _file = LifeMark.ToWrite(store);
            RandomAccess.Write(_file, whole, 0);
            (_life, _place) = (life, whole.Length - LifeMark.LastOf(last).Length);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Dispose();
        }
    }

    public void Dispose()
    {
        _file?.Dispose();
        _file = null;
    }
}
