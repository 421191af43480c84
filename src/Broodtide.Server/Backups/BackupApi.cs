using System.Text.Json.Serialization;
using Broodtide.Server.Site;
using Broodtide.Server.Words;

namespace Broodtide.Server.Backups;

/// <summary>What the owner may know of the backups.</summary>
internal sealed record BackupsSeen(
    IReadOnlyList<BackupSeen> Backups,
    string? Trouble,
    long? TroubleUnixSeconds
);

/// <summary>One backup.</summary>
internal sealed record BackupSeen(string Name, long MadeUnixSeconds, long Bytes);

/// <summary>The shapes of the answer.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(BackupsSeen))]
internal sealed partial class BackupsJson : JsonSerializerContext;

/// <summary>The backups of a server, made by its clock and shown to its owner.</summary>
internal static class BackupApi
{
    /// <summary>Starts the clock where backups are asked for.</summary>
    public static void AddBackups(this IServiceCollection services, ServerOptions options)
    {
        if (options.Backups is { } plan)
        {
            services.AddSingleton(plan).AddSingleton<BackupClock>();
            services.AddHostedService(all => all.GetRequiredService<BackupClock>());
        }
    }

    /// <summary>Answers what lies there and what went wrong; nothing is handed out.</summary>
    public static void MapBackups(this IEndpointRouteBuilder app) =>
        app.MapGet(
            PhoneSite.ApiPath + "/backups",
            (IServiceProvider services) =>
            {
                var clock = services.GetService<BackupClock>();
                return Results.Json(
                    new BackupsSeen(
                        [
                            .. (clock?.Kept ?? []).Select(one => new BackupSeen(
                                Path.GetFileName(one.Path),
                                one.Made.ToUnixTimeSeconds(),
                                new FileInfo(one.Path).Length
                            )),
                        ],
                        clock?.Trouble is { } trouble ? Said.Sentence(trouble.Why) : null,
                        clock?.Trouble?.At.ToUnixTimeSeconds()
                    ),
                    BackupsJson.Default.BackupsSeen
                );
            }
        );
}
