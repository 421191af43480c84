using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Runtime.InteropServices;
using System.Text;
using Broodtide.Server.Tests.Kit;

namespace Broodtide.Server.Tests.Operating;

public sealed class ServiceTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // sd_notify(3): the service sends READY=1 and STOPPING=1 to the datagram socket that NOTIFY_SOCKET names.
    [Fact]
    public async Task The_starter_of_the_system_hears_when_it_is_up_and_when_it_stops()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "There is no systemd on this system.");
        using var folder = new TemporaryFolder();
        using var socket = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
        socket.Bind(new UnixDomainSocketEndPoint(folder.File("notify")));
        // The library takes itself for a service where its parent bears that name, so the shell is given it.
        File.Copy("/bin/sh", folder.File("systemd"));
        using var process = StartedServer.StartAs(
            folder,
            folder.File("systemd"),
            "export NOTIFY_SOCKET=\"$1/notify\"; shift; \"$@\" & echo $!; wait $!",
            "--urls",
            "http://127.0.0.1:0"
        );
        try
        {
            var server = int.Parse(
                (await process.StandardOutput.ReadLineAsync(Stop))!,
                CultureInfo.InvariantCulture
            );
            Assert.Contains("READY=1", await Heard(socket), StringComparison.Ordinal);
            Assert.Equal(0, Kill(server, Sigterm));
            Assert.Contains("STOPPING=1", await Heard(socket), StringComparison.Ordinal);
            await process.WaitForExitAsync(Stop);
            Assert.Equal(0, process.ExitCode);
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
            }
        }
    }

    [Fact]
    public async Task The_unit_leaves_little_open()
    {
        const string Program = "/usr/bin/systemd-analyze";
        Assert.SkipUnless(File.Exists(Program), "There is no systemd-analyze on this machine.");
        using var process = Process.Start(
            new ProcessStartInfo(
                Program,
                ["security", "--offline=true", "--threshold=20", "--no-pager", Unit.FullName]
            )
            {
                UseShellExecute = false,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            }
        )!;
        var said = await process.StandardOutput.ReadToEndAsync(Stop);
        await process.WaitForExitAsync(Stop);
        Assert.True(process.ExitCode == 0, said);
    }

    private static FileInfo Unit
    {
        get
        {
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            while (!File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
            {
                folder = folder.Parent!;
            }

            return new(Path.Combine(folder.FullName, "deploy", "broodtide.service"));
        }
    }

    private static async Task<string> Heard(Socket socket)
    {
        var bytes = new byte[1024];
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Stop);
        patience.CancelAfter(TimeSpan.FromMinutes(2));
        var count = await socket.ReceiveAsync(bytes, patience.Token);
        return Encoding.UTF8.GetString(bytes, 0, count);
    }

    private const int Sigterm = 15;

    [DllImport("libc", EntryPoint = "kill")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static extern int Kill(int process, int signal);
}
