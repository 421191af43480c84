using System.Diagnostics;

namespace Broodtide.Server.Tests.Kit;

/// <summary>A second opinion on certificates; where the program is missing, tests are skipped by name.</summary>
internal static class Openssl
{
    public static async Task<(int Code, string Said)> Run(params string[] arguments)
    {
        var program = new[] { "/usr/bin/openssl", "/usr/local/bin/openssl" }.FirstOrDefault(File.Exists);
        if (program is null)
        {
            Assert.Skip("There is no openssl on this machine.");
        }

        using var process =
            Process.Start(
                new ProcessStartInfo(program, arguments)
                {
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                    RedirectStandardError = true,
                }
            ) ?? throw new InvalidOperationException("openssl did not start.");
        var said = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var complained = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, await said + await complained);
    }
}
