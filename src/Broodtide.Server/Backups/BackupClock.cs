using Broodtide.Server.Words;
using Broodtide.Storage;
using Broodtide.Storage.Backups;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Server.Backups;

/// <summary>
/// Makes a backup when the newest one is old enough, and tries again sooner where it did not come about. It goes by what lies in the
/// folder, so a restart neither forgets nor doubles one.
/// </summary>
internal sealed partial class BackupClock(
    ServerOptions options,
    BackupPlan plan,
    IClock clock,
    ILogger<BackupClock> log
) : BackgroundService
{
    /// <summary>How soon it tries again.</summary>
    public static readonly Duration AgainAfter = Duration.FromHours(1);

    // What the store may answer, each with a sentence of its own; anything else is said in its own words.
    private static readonly HashSet<string> OfStore =
    [
        "backup-of-damaged",
        "backup-not-proved",
        "disk-full",
        "store-damaged",
        "photo-file-damaged",
        "number-twice",
        "chain-broken",
        "store-away",
        "store-not-prepared",
        "store-not-durable",
        "store-move-differs",
    ];

    // Short steps: a machine that slept, or a clock that was put right, is noticed.
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(30);

    /// <summary>What went wrong the last time; nothing while all is well.</summary>
    public (Instant At, Remark Why)? Trouble { get; private set; }

    /// <summary>The backups that lie there, newest first.</summary>
    public IReadOnlyList<(string Path, Instant Made)> Kept => BackupFolder.All(plan.Folder.FullName);

    /// <summary>Whether a backup is due at an instant.</summary>
    public bool IsDue(Instant now)
    {
        if (
            Trouble is { } trouble
            && now >= trouble.At
            && now < trouble.At + Duration.Min(AgainAfter, plan.Every)
        )
        {
            return false;
        }

        // One that bears a later time was made by a clock that was wrong.
        return Kept.Select(one => (Instant?)one.Made).FirstOrDefault(made => made <= now) is not { } newest
            || now - newest >= plan.Every;
    }

    /// <summary>Makes a backup if one is due.</summary>
    /// <returns>Whether one was made.</returns>
    public bool Look(CancellationToken cancellation)
    {
        var now = clock.GetCurrentInstant();
        if (!IsDue(now))
        {
            return false;
        }

        try
        {
            plan.Folder.Create();
            using var house = HouseToCopy.Of(options);
            var made = BackupMaking.OfHouse(
                house.Folder,
                withKeys: false,
                BackupFolder.NewName(plan.Folder.FullName, now),
                plan.Passphrase,
                now,
                cancellation
            );
            foreach (var concern in made.Concerns)
            {
                Damaged(log, Said.Sentence(concern));
            }

            BackupFolder.Thin(plan.Folder.FullName, plan.Keep, made.Path);
            Trouble = null;
            return true;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            var why =
                failure is StoreUnusableException { Reason: var reason } && OfStore.Contains(reason.Code)
                    ? reason
                    : new Remark("backup-failed", new Argument("message", failure.Message));
            Trouble = (now, why);
            Failed(log, Said.Sentence(why));
            return false;
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await Task.Run(() => Look(stoppingToken), stoppingToken);
                await Task.Delay(Step, stoppingToken);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "No backup was made: {Why}")]
    private static partial void Failed(ILogger log, string why);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Taken into the backup as it is: {What}")]
    private static partial void Damaged(ILogger log, string what);
}
