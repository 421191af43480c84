using OpenTelemetry;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace Broodtide.Server.Operating;

/// <summary>
/// Figures and traces by OpenTelemetry, to a collector that the owner names. Off unless the setting of that standard,
/// <c>OTEL_EXPORTER_OTLP_ENDPOINT</c>, says where to. What leaves names nobody: no address, no path that holds a secret.
/// </summary>
internal static class Telemetry
{
    /// <summary>The name of the standard's setting.</summary>
    public const string Setting = "OTEL_EXPORTER_OTLP_ENDPOINT";

    private static readonly string[] Meters =
    [
        HouseMeter.Name,
        "Microsoft.AspNetCore.Hosting",
        "Microsoft.AspNetCore.Server.Kestrel",
        "System.Runtime",
    ];

    public static void AddTelemetry(this IServiceCollection services, IConfiguration settings)
    {
        services.AddSingleton<HouseMeter>();
        if (!Uri.TryCreate(settings[Setting], UriKind.Absolute, out var collector))
        {
            return;
        }

        services
            .AddOpenTelemetry()
            .ConfigureResource(resource =>
                resource.AddService(
                    "broodtide",
                    serviceVersion: typeof(Telemetry).Assembly.GetName().Version?.ToString(3),
                    // A name made from the machine's would tell whose it is.
                    autoGenerateServiceInstanceId: true
                )
            )
            .WithMetrics(metrics =>
                metrics
                    .AddMeter(Meters)
                    // Where the house listens is nobody's business.
                    .AddView(instrument =>
                        instrument.Meter.Name.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal)
                            ? new MetricStreamConfiguration { TagKeys = NothingPersonal.Kept }
                            : null
                    )
            )
            .WithTracing(traces => traces.AddAspNetCoreInstrumentation().AddProcessor<NothingPersonal>())
            .UseOtlpExporter(OtlpExportProtocol.HttpProtobuf, collector);
    }
}
