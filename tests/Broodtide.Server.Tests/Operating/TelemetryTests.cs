using System.Text;
using Broodtide.Server.Operating;
using Broodtide.Server.Tests.People;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OpenTelemetry.Metrics;
using OpenTelemetry.Trace;

namespace Broodtide.Server.Tests.Operating;

public sealed class TelemetryTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Nothing_is_told_to_anybody_unless_the_owner_says_where_to()
    {
        await using var house = await LivingHouse.Start();
        Assert.Null(house.App.Services.GetService<MeterProvider>());
        Assert.Null(house.App.Services.GetService<TracerProvider>());
    }

    // The collector speaks OTLP over HTTP, as the OpenTelemetry protocol specification 1.x says: /v1/traces and /v1/metrics.
    [Fact]
    public async Task A_collector_learns_of_requests_and_of_nobody()
    {
        var told = new Dictionary<string, string>(StringComparer.Ordinal);
        await using var collector = await Collector(told);
        await using var house = await LivingHouse.Start(
            settings: [(Telemetry.Setting, collector.Urls.First())]
        );
        using var guest = house.Guest();
        guest.Headers.UserAgent.ParseAdd("a-phone-of-its-owner/1.0");
        const string Secret = "a-secret-of-a-calendar-that-nobody-may-learn";
        using (await guest.Get($"/api/calendar/{Secret}.ics?name=Ottilie")) { }
        using (await guest.Get("/api/people/door")) { }
        house.App.Services.GetRequiredService<HouseMeter>().Asked("meet", 12);

        Assert.True(house.App.Services.GetRequiredService<TracerProvider>().ForceFlush());
        Assert.True(house.App.Services.GetRequiredService<MeterProvider>().ForceFlush());
        Assert.Contains("/api/calendar/{secret}.ics", told["/v1/traces"], StringComparison.Ordinal);
        Assert.Contains("broodtide.gate.requests", told["/v1/metrics"], StringComparison.Ordinal);
        Assert.Contains("http.server.request.duration", told["/v1/metrics"], StringComparison.Ordinal);
        foreach (var text in told.Values)
        {
            Assert.DoesNotContain(Secret, text, StringComparison.Ordinal);
            Assert.DoesNotContain("Ottilie", text, StringComparison.Ordinal);
            Assert.DoesNotContain("a-phone-of-its-owner", text, StringComparison.Ordinal);
            Assert.DoesNotContain("127.0.0.1", text, StringComparison.Ordinal);
            Assert.DoesNotContain(Environment.MachineName, text, StringComparison.Ordinal);
        }
    }

    private static async Task<WebApplication> Collector(Dictionary<string, string> told)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.Run(async context =>
        {
            using var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body, context.RequestAborted);
            lock (told)
            {
                // Protocol buffers keep texts as they are, so they can be searched for.
                var text = Encoding.Latin1.GetString(body.ToArray());
                told[context.Request.Path] = told.GetValueOrDefault(context.Request.Path, "") + text;
            }

            context.Response.ContentType = "application/x-protobuf";
        });
        await app.StartAsync(Stop);
        return app;
    }
}
