using System.Text.Json;
using Broodtide.Workbench.Sharing;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Broodtide.Server.Operating;

/// <summary>
/// Two addresses for what watches over the server: whether it lives, and whether it is ready. They say one word and
/// nothing of the house, to whoever asks.
/// </summary>
internal static class HealthApi
{
    /// <summary>Answers as long as the program runs: start it anew if not.</summary>
    public const string Live = "/health/live";

    /// <summary>Answers 200 if requests may be sent here, 503 with the reason if not.</summary>
    public const string Ready = "/health/ready";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    public static void AddHealth(this IServiceCollection services, Gate gate) =>
        services.AddSingleton(gate).AddHealthChecks().AddCheck<Readiness>("journal", timeout: Patience);

    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        var open = app.MapGroup("").AllowAnonymous();
        open.MapHealthChecks(
            Live,
            new() { Predicate = _ => false, ResponseWriter = (context, _) => Say(context, "alive") }
        );
        open.MapHealthChecks(
            Ready,
            new() { ResponseWriter = (context, report) => Say(context, Word(report)) }
        );
    }

    private static string Word(HealthReport report) =>
        report.Entries.Values.FirstOrDefault().Description ?? "store-silent";

    private static Task Say(HttpContext context, string word)
    {
        context.Response.ContentType = "application/json";
        return context.Response.WriteAsync(
            $"{{\"state\":{JsonSerializer.Serialize(word, OperatingJson.Default.String)}}}"
        );
    }
}
