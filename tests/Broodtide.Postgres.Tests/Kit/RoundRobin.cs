using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace Broodtide.Postgres.Tests.Kit;

/// <summary>
/// A proxy on this machine: each new connection goes to the next server in turn; one that does not answer is passed
/// over, and a connection whose server ended is ended too.
/// </summary>
internal sealed class RoundRobin : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _closing = new();
    private readonly IReadOnlyList<int> _ports;
    private readonly ConcurrentDictionary<int, int> _served = new();
    private readonly Task _accepting;
    private int _next;

    public RoundRobin(params IReadOnlyList<int> ports)
    {
        _ports = ports;
        _listener.Start();
        _accepting = AcceptAsync();
    }

    public Uri Address => new($"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}");

    /// <summary>How many connections a server got.</summary>
    public int Served(int port) => _served.GetValueOrDefault(port);

    public async ValueTask DisposeAsync()
    {
        await _closing.CancelAsync();
        _listener.Stop();
        await _accepting;
        _closing.Dispose();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                _ = ServeAsync(await _listener.AcceptTcpClientAsync(_closing.Token));
            }
        }
        catch (Exception closed) when (closed is OperationCanceledException or SocketException)
        {
            // The test is over.
        }
    }

    private async Task ServeAsync(TcpClient caller)
    {
        using var first = caller;
        for (var tries = 0; tries < _ports.Count; tries++)
        {
            var port = _ports[(int)((uint)Interlocked.Increment(ref _next) % (uint)_ports.Count)];
            using var server = new TcpClient { NoDelay = true };
            try
            {
                await server.ConnectAsync(IPAddress.Loopback, port, _closing.Token);
            }
            catch (SocketException)
            {
                continue;
            }

            _served.AddOrUpdate(port, 1, (_, count) => count + 1);
            var (near, far) = (caller.GetStream(), server.GetStream());
            // Whichever way ends first ends both.
            await Task.WhenAny(CarryAsync(near, far), CarryAsync(far, near));
            return;
        }
    }

    private async Task CarryAsync(NetworkStream from, NetworkStream to)
    {
        try
        {
            await from.CopyToAsync(to, _closing.Token);
        }
        catch (Exception ended)
            when (ended is IOException or OperationCanceledException or ObjectDisposedException)
        {
            // Cut: the other way is cut with it.
        }
    }
}
