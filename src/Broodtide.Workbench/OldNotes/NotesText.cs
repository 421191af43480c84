using System.Text;
using nietras.SeparatedValues;

namespace Broodtide.Workbench.OldNotes;

/// <summary>The text of a file of notes: its letters and its cells.</summary>
internal static class NotesText
{
    /// <summary>The letters; bytes that are none stop the reading.</summary>
    public static Encoding EncodingOf(bool isLatin1) =>
        isLatin1 ? Encoding.Latin1 : new UTF8Encoding(false, throwOnInvalidBytes: true);

    /// <summary>The cells; a row may have fewer or more than the one before.</summary>
    public static SepReaderOptions ReaderOf(char delimiter) =>
        Sep.New(delimiter)
            .Reader(options =>
                options with
                {
                    HasHeader = false,
                    Unescape = true,
                    DisableColCountCheck = true,
                }
            );
}

/// <summary>A stream that counts what was read of it.</summary>
internal sealed class CountedStream(Stream inner) : Stream
{
    public long Count { get; private set; }

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => Count;
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count)
    {
        var read = inner.Read(buffer, offset, count);
        Count += read;
        return read;
    }

    public override async ValueTask<int> ReadAsync(
        Memory<byte> buffer,
        CancellationToken cancellationToken = default
    )
    {
        var read = await inner.ReadAsync(buffer, cancellationToken);
        Count += read;
        return read;
    }

    public override void Flush() { }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
