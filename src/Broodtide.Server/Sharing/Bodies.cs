using Broodtide.Units;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.Sharing;

/// <summary>Reads what was sent, up to a length.</summary>
internal static class Bodies
{
    /// <summary>The bytes, or why they are not taken.</summary>
    public static async Task<(ReadOnlyMemory<byte> Bytes, Remark? Refusal)> ReadAsync(
        HttpRequest request,
        int mostBytes,
        CancellationToken cancel
    )
    {
        if (!request.HasJsonContentType())
        {
            return (default, new Remark("sync-not-json"));
        }

        if (request.ContentLength > mostBytes)
        {
            return (default, Gate.TooBig(0));
        }

        using var buffer = new MemoryStream((int)(request.ContentLength ?? 0));
        var part = new byte[64 * 1024];
        while (await request.Body.ReadAsync(part, cancel) is > 0 and var count)
        {
            if (buffer.Length + count > mostBytes)
            {
                return (default, Gate.TooBig(0));
            }

            buffer.Write(part, 0, count);
        }

        return (buffer.GetBuffer().AsMemory(0, (int)buffer.Length), null);
    }
}
