using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace Broodtide.Sensors.Tests;

/// <summary>
/// A broker that others wrote, started for one test on a free port of this machine. Where the program is missing the test is
/// skipped by name; on a build server it fails.
/// </summary>
internal sealed class Broker : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("broker");
    private readonly bool _isClosed;
    private Process? _process;

    private Broker(bool isClosed) => _isClosed = isClosed;

    public int Port { get; } = FreePort();

    /// <summary>The authority that vouches for the broker; none where it speaks openly.</summary>
    public string? Authority => _isClosed ? Path.Combine(_folder.FullName, "ca.pem") : null;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <param name="isClosed">Whether it takes TLS and a password only.</param>
    public static async Task<Broker> StartAsync(bool isClosed = false)
    {
        var broker = new Broker(isClosed);
        await broker.StartAgainAsync();
        return broker;
    }

    public async Task StartAgainAsync()
    {
        var program = new[]
        {
            "/usr/sbin/mosquitto",
            "/usr/local/sbin/mosquitto",
            "/usr/bin/mosquitto",
        }.FirstOrDefault(File.Exists);
        if (program is null)
        {
            Assert.False(
                Environment.GetEnvironmentVariable("CI") == "true",
                "The build server has no mosquitto."
            );
            Assert.Skip("There is no mosquitto on this machine.");
        }

        var lines = new List<string>
        {
            "per_listener_settings false",
            $"listener {Port.ToString(CultureInfo.InvariantCulture)} 127.0.0.1",
            "persistence true",
            $"persistence_location {_folder.FullName}/",
        };
        if (Environment.UserName == "root")
        {
            lines.Add("user root");
        }

        if (_isClosed)
        {
            await MakeKeysAsync(program);
            lines.AddRange([
                "allow_anonymous false",
                $"password_file {_folder.FullName}/passwords",
                $"cafile {_folder.FullName}/ca.pem",
                $"certfile {_folder.FullName}/server.pem",
                $"keyfile {_folder.FullName}/server.key",
            ]);
        }
        else
        {
            lines.Add("allow_anonymous true");
        }

        var file = Path.Combine(_folder.FullName, "broker.conf");
        await File.WriteAllLinesAsync(file, lines, Stop);
        _process =
            Process.Start(
                new ProcessStartInfo(program, ["-c", file])
                {
                    UseShellExecute = false,
                    RedirectStandardError = true,
                    RedirectStandardOutput = true,
                }
            ) ?? throw new InvalidOperationException("The broker did not start.");
        _ = _process.StandardError.ReadToEndAsync(CancellationToken.None);
        _ = _process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        await Waited.ForAsync(IsListening);
    }

    /// <summary>Ends it at once, as a power cut does.</summary>
    public async Task KillAsync()
    {
        _process!.Kill();
        await _process.WaitForExitAsync(Stop);
    }

    /// <summary>A device of its own: it says here, and has it said when it is gone.</summary>
    public async Task<IMqttClient> DeviceAsync(string device, string? password = null)
    {
        var client = new MqttClientFactory().CreateMqttClient();
        var options = new MqttClientOptionsBuilder()
            .WithProtocolVersion(MqttProtocolVersion.V500)
            .WithTcpServer("127.0.0.1", Port)
            .WithClientId(device)
            .WithWillTopic($"broodtide/1/{device}/status")
            .WithWillPayload("""{"state":"gone"}""")
            .WithWillRetain()
            .WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        if (password is not null)
        {
            var chain = new X509Certificate2Collection();
            chain.ImportFromPemFile(Authority!);
            options = options
                .WithCredentials("device", password)
                .WithTlsOptions(tls =>
                    tls.UseTls()
                        .WithTargetHost("localhost")
                        .WithTrustChain(chain)
                        .WithRevocationMode(X509RevocationMode.NoCheck)
                );
        }

        await client.ConnectAsync(options.Build(), Stop);
        await client.SayAsync($"broodtide/1/{device}/status", """{"state":"here"}""", retained: true);
        return client;
    }

    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    public async ValueTask DisposeAsync()
    {
        if (_process is { HasExited: false })
        {
            _process.Kill();
            await _process.WaitForExitAsync(CancellationToken.None);
        }

        _process?.Dispose();
        _folder.Delete(recursive: true);
    }

    private bool IsListening()
    {
        try
        {
            using var client = new TcpClient();
            client.Connect(IPAddress.Loopback, Port);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    private async Task MakeKeysAsync(string program)
    {
        var passwords = Path.Combine(_folder.FullName, "passwords");
        if (File.Exists(passwords))
        {
            return;
        }

        using (
            var hashing = Process.Start(
                Path.Combine(
                    Path.GetDirectoryName(program)!.Replace("sbin", "bin", StringComparison.Ordinal),
                    "mosquitto_passwd"
                ),
                ["-c", "-b", passwords, "device", "right"]
            )
        )
        {
            await hashing!.WaitForExitAsync(Stop);
        }

        using var authorityKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var asked = new CertificateRequest("CN=test authority", authorityKey, HashAlgorithmName.SHA256);
        asked.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        var (from, to) = (DateTimeOffset.UnixEpoch.AddYears(50), DateTimeOffset.UnixEpoch.AddYears(80));
        using var authority = asked.CreateSelfSigned(from, to);
        using var serverKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var own = new CertificateRequest("CN=localhost", serverKey, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        own.CertificateExtensions.Add(names.Build());
        using var server = own.Create(authority, from, to, [1, 2, 3, 4]);
        await Task.WhenAll(
            File.WriteAllTextAsync(
                Path.Combine(_folder.FullName, "ca.pem"),
                authority.ExportCertificatePem(),
                Stop
            ),
            File.WriteAllTextAsync(
                Path.Combine(_folder.FullName, "server.pem"),
                server.ExportCertificatePem(),
                Stop
            ),
            File.WriteAllTextAsync(
                Path.Combine(_folder.FullName, "server.key"),
                serverKey.ExportPkcs8PrivateKeyPem(),
                Stop
            )
        );
    }
}

internal static class Saying
{
    public static Task SayAsync(this IMqttClient device, string topic, string text, bool retained = false) =>
        device.PublishAsync(
            new MqttApplicationMessageBuilder()
                .WithTopic(topic)
                .WithPayload(text)
                .WithRetainFlag(retained)
                .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
                .Build(),
            TestContext.Current.CancellationToken
        );
}

internal static class Waited
{
    // For another program, which may be slow on a busy machine; a right answer comes at once.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);

    public static Task ForAsync(Func<bool> holds) => ForAsync(() => Task.FromResult(holds()));

    public static async Task ForAsync(Func<Task<bool>> holds)
    {
        var stop = TestContext.Current.CancellationToken;
        for (var tries = 0; tries < Longest / TimeSpan.FromMilliseconds(50); tries++)
        {
            if (await holds())
            {
                return;
            }

            await Task.Delay(50, stop);
        }

        Assert.Fail("It did not happen in time.");
    }
}
