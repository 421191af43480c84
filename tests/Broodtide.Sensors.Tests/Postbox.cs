using System.Buffers;
using System.Collections.Concurrent;
using System.Text;
using SmtpServer;
using SmtpServer.Authentication;
using SmtpServer.ComponentModel;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace Broodtide.Sensors.Tests;

/// <summary>A mail server that others wrote, in this process; it keeps what it is given.</summary>
internal sealed class Postbox : MessageStore, IUserAuthenticator, IAsyncDisposable
{
    private readonly CancellationTokenSource _stopping = new();
    private readonly SmtpServer.SmtpServer _server;
    private readonly Task _serving;

    public Postbox(int? port = null)
    {
        Port = port ?? Broker.FreePort();
        var services = new ServiceProvider();
        services.Add((IMessageStore)this);
        services.Add((IUserAuthenticator)this);
        _server = new SmtpServer.SmtpServer(
            new SmtpServerOptionsBuilder()
                .ServerName("localhost")
                .Endpoint(place => place.Port(Port).AuthenticationRequired().AllowUnsecureAuthentication())
                .Build(),
            services
        );
        _serving = _server.StartAsync(_stopping.Token);
    }

    public int Port { get; }

    public ConcurrentQueue<(string To, string Text)> Mails { get; } = [];

    public override Task<SmtpResponse> SaveAsync(
        ISessionContext context,
        IMessageTransaction transaction,
        ReadOnlySequence<byte> buffer,
        CancellationToken cancellationToken
    )
    {
        var to = transaction.To[0];
        Mails.Enqueue(($"{to.User}@{to.Host}", Encoding.UTF8.GetString(buffer.ToArray())));
        return Task.FromResult(SmtpResponse.Ok);
    }

    public Task<bool> AuthenticateAsync(
        ISessionContext context,
        string user,
        string password,
        CancellationToken cancellationToken
    ) => Task.FromResult(user == "house" && password == "right");

    public async ValueTask DisposeAsync()
    {
        _server.Shutdown();
        await _stopping.CancelAsync();
        try
        {
            await _serving;
        }
        catch (OperationCanceledException)
        {
            // It was told to.
        }

        _stopping.Dispose();
    }
}
