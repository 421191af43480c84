using System.Threading.Channels;
using Broodtide.Domain.Journal;
using Broodtide.Storage;
using Broodtide.Storage.Blocks;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Server.Sensors;

/// <summary>Everything of sensors in one server: what they read, who listens, and the work that comes round.</summary>
internal sealed class SensorRoom : IAsyncDisposable
{
    private static readonly TimeSpan EveryHour = TimeSpan.FromHours(1);
    private static readonly TimeSpan EveryHalfHour = TimeSpan.FromMinutes(30);
    private static readonly TimeSpan EveryPass = TimeSpan.FromSeconds(5);

    private readonly IClock _clock;
    private readonly IJournal _journal;
    private readonly ILogger _log;
    private readonly SemaphoreSlim _taking = new(1);
    private readonly CancellationTokenSource _stopping = new();
    private readonly Channel<IReadOnlyList<SensorReading>> _fresh = Channel.CreateUnbounded<
        IReadOnlyList<SensorReading>
    >();

    private IReadOnlyDictionary<SensorId, IReadOnlyList<Remark>> _findings =
        new Dictionary<SensorId, IReadOnlyList<Remark>>();
    private readonly LoggerFolder? _files;
    private Task[] _work = [];

    private SensorRoom(
        SensorSettings settings,
        IReadingStore store,
        IJournal journal,
        DirectoryInfo data,
        IClock clock,
        ILogger log
    )
    {
        (Settings, Store, _journal, _clock, _log) = (settings, store, journal, clock, log);
        Intake = new(store, clock, settings.KeepWholeDays) { Took = taken => _fresh.Writer.TryWrite(taken) };
        Listening = settings.Mqtt is { } broker ? new(broker, Intake, data, log, _taking) : null;
        _files = settings.Folder is { } folder ? new(folder, Intake, _taking, clock) : null;
        Rounds = new(store, journal, settings, clock, log, Listening);
    }

    public SensorSettings Settings { get; }

    public IReadingStore Store { get; }

    public SensorIntake Intake { get; }

    /// <summary>The way to the broker; none where the settings name none.</summary>
    public SensorListening? Listening { get; }

    /// <summary>Who watches.</summary>
    public AlarmRounds Rounds { get; }

    /// <summary>Where the readings of a server lie.</summary>
    public static string PathOf(ServerOptions options) =>
        ReadingsFile.BesidePath(
            options.Demo
                ? Path.Combine(options.DataFolder.CreateSubdirectory("demo").FullName, "invented.db")
                : Path.Combine(options.DataFolder.FullName, "journal.db")
        );

    /// <summary>Puts it together; nothing is heard before <see cref="Start"/>.</summary>
    public static async Task<SensorRoom> OpenAsync(
        SensorSettings settings,
        IReadingStore store,
        IJournal journal,
        DirectoryInfo data,
        IClock clock,
        ILogger log,
        CancellationToken cancel
    )
    {
        var room = new SensorRoom(settings, store, journal, data, clock, log);
        await room.Intake.OpenAsync(cancel);
        return room;
    }

    /// <summary>Begins to listen and to go round.</summary>
    /// <param name="invents">Whether invented sensors go on to read.</param>
    public void Start(bool invents = false)
    {
        Listening?.Start();
        _work =
        [
            .. invents ? [RoundAsync(InventAsync, EveryHalfHour)] : Array.Empty<Task>(),
            RoundAsync(CloseDaysAsync, EveryHour),
            RoundAsync(PassAsync, EveryPass),
            RoundAsync(JudgeAsync, EveryHour),
            RoundAsync(LookForFilesAsync, EveryPass),
        ];
    }

    /// <summary>A sensor was placed or limited, or an alarm seen.</summary>
    public void Changed() => Rounds.Forget();

    /// <summary>Keeps that somebody has seen an alarm. False where there is no such alarm.</summary>
    public async ValueTask<bool> AcknowledgeAsync(
        Guid alarm,
        Guid person,
        Instant now,
        CancellationToken cancel
    )
    {
        return await AlarmSeeing.SeeAsync(Store, alarm, new(now, person), cancel) is not null;
    }

    /// <summary>What phones receive.</summary>
    public async Task<SensorsSeen> SeenAsync(Instant now, CancellationToken cancel)
    {
        return await SensorsTelling.OfAsync(
            Store,
            _findings,
            sensor => Rounds.LimitsOf(sensor.Id),
            new()
            {
                GoneSince = Intake.GoneSince,
                BrokerTrouble = Listening?.Trouble,
                TellsNobody = Rounds.TellsNobody,
                Refused = Intake.Refused.ByCode,
            },
            now,
            cancel
        );
    }

    public async ValueTask DisposeAsync()
    {
        await _stopping.CancelAsync();
        if (Listening is not null)
        {
            await Listening.DisposeAsync();
        }

        await Task.WhenAll(_work);
        await Store.DisposeAsync();
        _stopping.Dispose();
        _taking.Dispose();
    }

    private async Task CloseDaysAsync(CancellationToken cancel)
    {
        var now = _clock.GetCurrentInstant();
        await DayClosing.CloseAsync(Store, now, cancel);
        await DayClosing.ThinAsync(Store, now.InUtc().Date.PlusDays(-Settings.KeepWholeDays), cancel);
    }

    /// <summary>Judges every sensor by what is known of the house.</summary>
    internal async Task JudgeAsync(CancellationToken cancel)
    {
        if ((await Store.SensorsAsync(cancel)).Count == 0)
        {
            return;
        }

        var entries = await _journal.ReadAllAsync(cancel);
        var outlook = Outlook.Of(Account.Of(entries), _clock.GetCurrentInstant(), DateTimeZone.Utc);
        _findings = await SensorJudging.OfAsync(Store, outlook, cancel);
    }

    /// <summary>Invented sensors read what they have read since; they are judged as any.</summary>
    internal async Task InventAsync(CancellationToken cancel)
    {
        var entries = await _journal.ReadAllAsync(cancel);
        var outlook = Outlook.Of(Account.Of(entries), _clock.GetCurrentInstant(), DateTimeZone.Utc);
        await InventedSensors.WriteAsync(Store, outlook, cancel);
        await Intake.OpenAsync(cancel);
        await JudgeAsync(cancel);
    }

    private Task LookForFilesAsync(CancellationToken cancel) =>
        _files?.LookAsync(cancel) ?? Task.CompletedTask;

    private async Task PassAsync(CancellationToken cancel)
    {
        var fresh = new List<SensorReading>();
        while (_fresh.Reader.TryRead(out var taken))
        {
            fresh.AddRange(taken);
        }

        await Rounds.PassAsync(fresh, cancel);
    }

    private async Task RoundAsync(Func<CancellationToken, Task> work, TimeSpan every)
    {
        while (!_stopping.IsCancellationRequested)
        {
            try
            {
                await work(_stopping.Token);
            }
            catch (StoreUnusableException failure)
            {
                _log.WorkFailed(failure.Reason.Code);
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
            {
                // A folder that is not there, or not ours to write in; the next round looks again.
                _log.WorkFailed(failure.GetType().Name);
            }
            catch (Exception stopped) when (stopped is OperationCanceledException or ObjectDisposedException)
            {
                // It goes on unless the server stops.
            }

            try
            {
                await Task.Delay(every, _stopping.Token);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }
}
