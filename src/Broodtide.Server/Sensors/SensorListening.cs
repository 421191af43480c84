using System.Buffers;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Threading.Channels;
using Broodtide.Storage;
using Broodtide.Workbench.Sensors;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace Broodtide.Server.Sensors;

/// <summary>
/// Listens to the broker, MQTT 5. A message is acknowledged only once it is on the disk: what a fall of this program or a
/// full disk leaves behind, the broker sends again.
/// </summary>
internal sealed class SensorListening : IAsyncDisposable
{
    private const int MostInOneWrite = 500;
    private const int MostUnderWay = 2_000;

    // So long the broker keeps what comes while this program is down, s.
    private const uint SessionSeconds = 7 * 24 * 3600;

    private static readonly TimeSpan FirstWait = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(30);

    private readonly BrokerSettings _settings;
    private readonly SensorIntake _intake;
    private readonly string _clientId;
    private readonly ILogger _log;
    private readonly SemaphoreSlim _taking;
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();
    private readonly CancellationTokenSource _stopping = new();
    private readonly Channel<MqttApplicationMessageReceivedEventArgs> _arrived =
        Channel.CreateBounded<MqttApplicationMessageReceivedEventArgs>(MostUnderWay);

    private Task _connecting = Task.CompletedTask;
    private Task _writing = Task.CompletedTask;

    public SensorListening(
        BrokerSettings settings,
        SensorIntake intake,
        DirectoryInfo data,
        ILogger log,
        SemaphoreSlim taking
    )
    {
        (_settings, _intake, _log, _taking) = (settings, intake, log, taking);
        // The same after each start, so that the broker knows what it keeps for whom.
        var place = Encoding.UTF8.GetBytes($"{Environment.MachineName}\n{data.FullName}");
        _clientId =
            settings.ClientId ?? $"broodtide-{Convert.ToHexStringLower(SHA256.HashData(place))[..12]}";
        _client.ApplicationMessageReceivedAsync += ArrivedAsync;
    }

    /// <summary>Whether the broker is there.</summary>
    public bool IsConnected => _client.IsConnected;

    /// <summary>Why it is not, as a code; none while it is.</summary>
    public string? Trouble { get; private set; } = "sensor-broker-away";

    public void Start()
    {
        _writing = WriteAsync();
        _connecting = StayConnectedAsync();
    }

    /// <summary>Tells everybody who listens; a retained message stays until the next.</summary>
    /// <returns>Whether the broker took it.</returns>
    public async Task<bool> TellAsync(
        string topic,
        ReadOnlyMemory<byte> payload,
        bool retained,
        CancellationToken cancel
    )
    {
        if (!_client.IsConnected)
        {
            return false;
        }

        try
        {
            var result = await _client.PublishAsync(
                new MqttApplicationMessageBuilder()
                    .WithTopic(topic)
                    .WithPayload(payload.ToArray())
                    .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
                    .WithRetainFlag(retained)
                    .Build(),
                cancel
            );
            return result.IsSuccess;
        }
        catch (Exception away)
            when (away is not OperationCanceledException || !cancel.IsCancellationRequested)
        {
            return false;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _stopping.CancelAsync();
        await _connecting;
        if (_client.IsConnected)
        {
            try
            {
                using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(2));
                await _client.DisconnectAsync(new MqttClientDisconnectOptions(), limit.Token);
            }
            catch (Exception away) when (away is not OutOfMemoryException)
            {
                // It is going anyway; what was not acknowledged comes again.
            }
        }

        _arrived.Writer.TryComplete();
        await _writing;
        _client.Dispose();
        _stopping.Dispose();
    }

    private async Task ArrivedAsync(MqttApplicationMessageReceivedEventArgs message)
    {
        message.AutoAcknowledge = false;
        try
        {
            // Where the disk is slower than the devices this waits, and so does the broker.
            await _arrived.Writer.WriteAsync(message, _stopping.Token);
        }
        catch (Exception ended) when (ended is OperationCanceledException or ChannelClosedException)
        {
            // Not acknowledged: the broker sends it again.
        }
    }

    private async Task WriteAsync()
    {
        var batch = new List<MqttApplicationMessageReceivedEventArgs>();
        while (await _arrived.Reader.WaitToReadAsync())
        {
            while (batch.Count < MostInOneWrite && _arrived.Reader.TryRead(out var message))
            {
                batch.Add(message);
            }

            try
            {
                // Files of loggers are taken in between.
                await _taking.WaitAsync();
                try
                {
                    await _intake.TakeAsync(
                        [
                            .. batch.Select(one => new ArrivedMessage(
                                one.ApplicationMessage.Topic,
                                one.ApplicationMessage.Payload.ToArray()
                            )),
                        ],
                        CancellationToken.None
                    );
                }
                finally
                {
                    _taking.Release();
                }

                foreach (var one in batch)
                {
                    await AcknowledgeAsync(one);
                }
            }
            catch (StoreUnusableException full)
            {
                // Nothing of it was acknowledged. Coming again is asked for by leaving.
                _log.NotKept(full.Reason.Code);
                await LeaveAsync();
            }

            batch.Clear();
        }
    }

    private static async Task AcknowledgeAsync(MqttApplicationMessageReceivedEventArgs message)
    {
        try
        {
            await message.AcknowledgeAsync(CancellationToken.None);
        }
        catch (Exception away) when (away is not OutOfMemoryException)
        {
            // Kept, but the broker is gone and did not hear so: it sends it again, and a reading that comes twice is one.
            // A client without a connection fails here in several ways, one of them by a reference to nothing.
        }
    }

    private async Task LeaveAsync()
    {
        try
        {
            await _client.DisconnectAsync(new MqttClientDisconnectOptions(), CancellationToken.None);
        }
        catch (Exception away) when (away is not OutOfMemoryException)
        {
            // It is not there.
        }
    }

    private async Task StayConnectedAsync()
    {
        var wait = FirstWait;
        while (!_stopping.IsCancellationRequested)
        {
            try
            {
                if (!_client.IsConnected)
                {
                    await ConnectAsync();
                    (wait, Trouble) = (FirstWait, null);
                    _log.BrokerIsThere();
                }

                await Task.Delay(FirstWait, _stopping.Token);
            }
            catch (OperationCanceledException) when (_stopping.IsCancellationRequested)
            {
                return;
            }
            catch (Exception away) when (away is not OutOfMemoryException)
            {
                var trouble = away is BrokerRefusedException ? "sensor-broker-refused" : "sensor-broker-away";
                if (Trouble is null || wait == FirstWait)
                {
                    _log.BrokerIsAway(trouble);
                }

                Trouble = trouble;
                try
                {
                    await Task.Delay(wait, _stopping.Token);
                }
                catch (OperationCanceledException)
                {
                    return;
                }

                wait = wait + wait < LongestWait ? wait + wait : LongestWait;
            }
        }
    }

    private async Task ConnectAsync()
    {
        // Options are made for each connection: two clients of one object throw each other out.
        var options = new MqttClientOptionsBuilder()
            .WithProtocolVersion(MqttProtocolVersion.V500)
            .WithTcpServer(_settings.Host, _settings.Port)
            .WithClientId(_clientId)
            .WithCleanStart(false)
            .WithSessionExpiryInterval(SessionSeconds)
            .WithReceiveMaximum(MostUnderWay)
            .WithMaximumPacketSize(SensorMessages.LongestMessage * 2)
            .WithKeepAlivePeriod(TimeSpan.FromSeconds(30))
            .WithTimeout(TimeSpan.FromSeconds(10));
        if (_settings.User is { } user)
        {
            options = options.WithCredentials(user, _settings.Password ?? "");
        }

        if (_settings.Tls)
        {
            options = options.WithTlsOptions(tls =>
            {
                tls.UseTls().WithTargetHost(_settings.Host);
                if (_settings.Authority is { } authority)
                {
                    var chain = new X509Certificate2Collection();
                    chain.ImportFromPemFile(authority);
                    tls.WithTrustChain(chain).WithRevocationMode(X509RevocationMode.NoCheck);
                }
            });
        }

        var connected = await _client.ConnectAsync(options.Build(), _stopping.Token);
        if (connected.ResultCode is not MqttClientConnectResultCode.Success)
        {
            throw new BrokerRefusedException();
        }

        // Descriptions and states are retained; of a shared subscription a broker sends no retained ones.
        var readings = $"{SensorTopic.Root}/+/+/readings";
        await _client.SubscribeAsync(
            new MqttClientSubscribeOptionsBuilder()
                .WithTopicFilter($"{SensorTopic.Root}/+/status", MqttQualityOfServiceLevel.AtLeastOnce)
                .WithTopicFilter($"{SensorTopic.Root}/+/+/about", MqttQualityOfServiceLevel.AtLeastOnce)
                .WithTopicFilter(
                    _settings.Share is { } share ? $"$share/{share}/{readings}" : readings,
                    MqttQualityOfServiceLevel.AtLeastOnce
                )
                .Build(),
            _stopping.Token
        );
    }

    private sealed class BrokerRefusedException : Exception;
}
