using Broodtide.Workbench.Sharing;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Broodtide.Server.Operating;

/// <summary>Whether the server can do what it is there for: the journal answers, and there is room to write.</summary>
/// <param name="gate">The door of the shared journal.</param>
/// <param name="options">Where the data lie.</param>
/// <param name="life">Whether a stop was asked for.</param>
internal sealed class Readiness(Gate gate, ServerOptions options, IHostApplicationLifetime life)
    : IHealthCheck
{
    /// <summary>Room that a day of writing and a picture need many times over; decided.</summary>
    public const long LeastFreeBytes = 64L * 1024 * 1024;

    public async Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        if (life.ApplicationStopping.IsCancellationRequested)
        {
            return HealthCheckResult.Unhealthy("stopping");
        }

        if (new DriveInfo(options.DataFolder.FullName).AvailableFreeSpace < LeastFreeBytes)
        {
            return HealthCheckResult.Unhealthy("disk-full");
        }

        try
        {
            await gate.RapAsync(cancellationToken);
            return HealthCheckResult.Healthy("ready");
        }
        catch (Exception trouble) when (trouble is not OperationCanceledException)
        {
            return HealthCheckResult.Unhealthy("store-silent", trouble);
        }
    }
}
