using System.Globalization;
using System.Text;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;
using NodaTime;

namespace Broodtide.Load;

/// <summary>Devices at a broker, each with many sensors that send one reading in so many seconds, evenly spread.</summary>
internal sealed class Sensors(int port, int devices, int each, TimeSpan pace)
{
    private int _sent;
    private int _unsent;

    /// <summary>Readings that the broker has taken.</summary>
    public int Sent => _sent;

    /// <summary>Readings that it has not.</summary>
    public int Unsent => _unsent;

    public async Task RunAsync(CancellationToken over) =>
        await Task.WhenAll(
            Enumerable.Range(0, devices).Select(number => Task.Run(() => LiveAsync(number, over), over))
        );

    private async Task LiveAsync(int number, CancellationToken over)
    {
        using var client = new MqttClientFactory().CreateMqttClient();
        await client.ConnectAsync(
            new MqttClientOptionsBuilder()
                .WithTcpServer("127.0.0.1", port)
                .WithProtocolVersion(MqttProtocolVersion.V500)
                .WithClientId($"device-{number}")
                .Build(),
            CancellationToken.None
        );
        for (var sensor = 0; sensor < each; sensor++)
        {
            await PublishAsync(
                client,
                Topic(number, sensor, "about"),
                """{"unit":"Cel","resolution":0.0625,"everySeconds":10}""",
                true
            );
        }

        try
        {
            var gap = pace / each;
            for (var round = 0; ; round++)
            {
                for (var sensor = 0; sensor < each; sensor++)
                {
                    await Task.Delay(gap, over);
                    var value = 24 + Math.Round(Math.Sin((round + sensor) / 40.0), 2);
                    var at = SystemClock.Instance.GetCurrentInstant().ToUnixTimeMilliseconds();
                    var taken = await PublishAsync(
                        client,
                        Topic(number, sensor, "readings"),
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $$"""{"at":{{at}},"seq":{{round}},"value":{{value}},"unit":"Cel"}"""
                        ),
                        false
                    );
                    Interlocked.Increment(ref taken ? ref _sent : ref _unsent);
                }
            }
        }
        catch (OperationCanceledException) when (over.IsCancellationRequested)
        {
            await client.DisconnectAsync(cancellationToken: CancellationToken.None);
        }
    }

    private static string Topic(int device, int sensor, string leaf) =>
        $"broodtide/1/device-{device}/probe-{sensor}/{leaf}";

    private static async Task<bool> PublishAsync(IMqttClient client, string topic, string text, bool retained)
    {
        var told = await client.PublishAsync(
            new MqttApplicationMessageBuilder()
                .WithTopic(topic)
                .WithPayload(Encoding.UTF8.GetBytes(text))
                .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
                .WithRetainFlag(retained)
                .Build(),
            CancellationToken.None
        );
        return told.IsSuccess;
    }
}
