using System.Net.Sockets;
using System.Text;
using Broodtide.Server.Tests.Kit;
using Broodtide.Server.Tests.People;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Tests.Attacks;

/// <summary>
/// The real server as a program of its own, with an owner who is signed in; attacks come over bare sockets where a
/// well-behaved client would not send what they send.
/// </summary>
public sealed class BesiegedHouse : IAsyncLifetime
{
    private StartedServer _server = null!;

    internal TemporaryFolder Folder { get; } = new();

    internal Uri Address => new(_server.Address);

    internal Guest Owner { get; private set; } = null!;

    /// <summary>Everything the server has printed up to now, to both of its outputs.</summary>
    internal string Printed => _server.Printed;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _server = await StartedServer.Open(Folder, "--urls", "http://127.0.0.1:0");
        var code = _server.Said.Split("first#")[1].Split('\n')[0].Trim();
        Owner = Guest();
        await Owner.Does(
            PeopleAddresses.First,
            new FirstAsked(code, "Ada", LivingHouse.Passphrase),
            PeopleJson.Default.FirstAsked
        );
    }

    public async ValueTask DisposeAsync()
    {
        Owner.Dispose();
        await _server.DisposeAsync();
        Folder.Dispose();
    }

    internal Guest Guest() => new(Address);

    /// <summary>A connection that says what it wants.</summary>
    internal async Task<TcpClient> Connect()
    {
        var client = new TcpClient();
        await client.ConnectAsync(Address.Host, Address.Port, Stop);
        return client;
    }

    /// <summary>Sends bytes as they are and reads until the server closes or falls silent.</summary>
    internal async Task<string> Raw(string request, byte[]? body = null)
    {
        using var client = await Connect();
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.Latin1.GetBytes(request), Stop);
        if (body is not null)
        {
            await stream.WriteAsync(body, Stop);
        }

        return await Answer(stream);
    }

    internal static async Task<string> Answer(NetworkStream stream)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Stop);
        patience.CancelAfter(TimeSpan.FromSeconds(60));
        var text = new StringBuilder();
        var piece = new byte[64 * 1024];
        try
        {
            while (await stream.ReadAsync(piece, patience.Token) is > 0 and var count)
            {
                text.Append(Encoding.Latin1.GetString(piece, 0, count));
            }
        }
        catch (IOException)
        {
            // Thrown out in the middle: an answer as well.
        }

        return text.ToString();
    }

    internal static int StatusOf(string answer) =>
        answer.StartsWith("HTTP/1.1 ", StringComparison.Ordinal)
            ? int.Parse(answer.AsSpan(9, 3), System.Globalization.CultureInfo.InvariantCulture)
            : 0;

    /// <summary>Whether the house still answers somebody else.</summary>
    internal async Task Lives()
    {
        using var guest = Guest();
        using var answer = await guest.Get("health/ready");
        Assert.True(answer.IsSuccessStatusCode);
    }
}
