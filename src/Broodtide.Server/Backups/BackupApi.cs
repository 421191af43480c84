using Broodtide.Server.Site;
using Broodtide.Server.Words;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Backups;

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
                        clock is not null,
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
                    PeopleJson.Default.BackupsSeen
                );
            }
        );
}
