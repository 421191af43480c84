using Broodtide.Server.Sensors;
using Broodtide.Storage.Blocks;
using Broodtide.Workbench.Sensors;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Sensors.Tests;

public sealed class LoggerFolderTests : IAsyncLifetime
{
    private const string Map = """
        {
          "delimiter": ";", "dateColumn": "Zeit", "dateOrder": "day-month-year", "zone": "Europe/Berlin",
          "decimal": "comma",
          "columns": [
            {"column": "Wasser", "as": "reading", "unit": "Cel", "sensor": "water"},
            {"column": "Luft", "as": "reading", "unit": "Cel", "sensor": "air"}
          ]
        }
        """;
    private static readonly SensorId Water = SensorId.Find("cellar", "water")!;
    private static readonly Instant Start = Instant.FromUtc(2026, 11, 1, 12, 0);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("loggers");
    private readonly FakeClock _clock = new(Start);
    private readonly SemaphoreSlim _taking = new(1);
    private ReadingsFile _store = null!;
    private LoggerFolder _loggers = null!;
    private DirectoryInfo _cellar = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _store = ReadingsFile.Open(Path.Combine(_folder.FullName, "readings.db"));
        var intake = new SensorIntake(_store, _clock, 400);
        await intake.OpenAsync(Stop);
        var files = _folder.CreateSubdirectory("files");
        _cellar = files.CreateSubdirectory("cellar");
        await File.WriteAllTextAsync(Path.Combine(_cellar.FullName, LoggerFolder.MapName), Map, Stop);
        _loggers = new(files.FullName, intake, _taking, _clock);
    }

    public async ValueTask DisposeAsync()
    {
        await _store.DisposeAsync();
        _taking.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task A_file_becomes_the_readings_of_its_columns_and_goes_into_done()
    {
        await PutAsync("a.csv", "Zeit;Wasser;Luft\n31.10.2026 10:00;24,5;19\n31.10.2026 10:10;24,6;\n");
        Assert.Equal(1, await LookAsync());
        Assert.Equal(
            [
                new RawReading(Instant.FromUtc(2026, 10, 31, 9, 0), 24.5),
                new(Instant.FromUtc(2026, 10, 31, 9, 10), 24.6),
            ],
            await ReadAsync()
        );
        Assert.Equal(2, (await _store.SensorsAsync(Stop)).Count);
        Assert.Single(_cellar.GetDirectories(LoggerFolder.Done)[0].GetFiles());
        Assert.Empty(_cellar.GetFiles("*.csv"));
    }

    [Fact]
    public async Task A_file_that_is_still_written_is_waited_for()
    {
        await PutAsync("a.csv", "Zeit;Wasser;Luft\n31.10.2026 10:00;24,5;19\n31.10.2026 10:1");
        Assert.Equal(0, await LookAsync());
        await PutAsync("a.csv", "Zeit;Wasser;Luft\n31.10.2026 10:00;24,5;19\n31.10.2026 10:10;24,6;19");
        Assert.Equal(0, await LookAsync());
        Assert.Empty(await ReadAsync());
        // No line end came, but nothing else did for long.
        _clock.AdvanceMinutes(11);
        Assert.Equal(1, await _loggers.LookAsync(Stop));
        Assert.Equal(2, (await ReadAsync()).Count);
    }

    [Fact]
    public async Task The_same_file_twice_is_one()
    {
        const string text = "Zeit;Wasser;Luft\n31.10.2026 10:00;24,5;19\n";
        await PutAsync("a.csv", text);
        await LookAsync();
        await PutAsync("b.csv", text);
        await LookAsync();
        Assert.Single(await ReadAsync());
        Assert.Empty(_cellar.GetFiles("*.csv"));
        Assert.Empty(_cellar.GetDirectories(LoggerFolder.Refused));
    }

    [Theory]
    [InlineData("Zeit;Wasser;Luft\n31.10.2026 10:00;24.5;19\n", "logger-rows-unreadable")]
    [InlineData("Zeit;Wasser;Luft\nyesterday;24,5;19\n", "logger-rows-unreadable")]
    [InlineData("Zeit;Wasser;Luft\n31.10.2026;24,5;19\n", "logger-rows-unreadable")]
    [InlineData("Zeit;Wasser\n31.10.2026 10:00;24,5\n", "map-column-not-there")]
    [InlineData("Zeit;Wasser;Luft\n", "logger-file-empty")]
    public async Task What_cannot_be_read_is_refused_whole_with_the_reason_beside(string text, string code)
    {
        await PutAsync("a.csv", text);
        await LookAsync();
        Assert.Empty(await ReadAsync());
        var refused = _cellar.GetDirectories(LoggerFolder.Refused)[0];
        var reason = await File.ReadAllLinesAsync(refused.GetFiles("*.reason.txt")[0].FullName, Stop);
        Assert.Equal(code, reason[0]);
        Assert.Equal(2, refused.GetFiles().Length);
    }

    [Fact]
    public async Task A_logger_without_a_mapping_is_told_so()
    {
        File.Delete(Path.Combine(_cellar.FullName, LoggerFolder.MapName));
        await PutAsync("a.csv", "Zeit;Wasser;Luft\n31.10.2026 10:00;24,5;19\n");
        await LookAsync();
        var refused = _cellar.GetDirectories(LoggerFolder.Refused)[0];
        var reason = await File.ReadAllLinesAsync(refused.GetFiles("*.reason.txt")[0].FullName, Stop);
        Assert.Equal("logger-map-missing", reason[0]);
    }

    [Fact]
    public async Task The_hour_that_the_clock_went_through_twice_is_two_hours()
    {
        // 25 October 2026, 3 o'clock summer time is 2 o'clock winter time.
        await PutAsync(
            "a.csv",
            "Zeit;Wasser;Luft\n25.10.2026 02:30;1;1\n25.10.2026 02:50;2;1\n25.10.2026 02:10;3;1\n25.10.2026 03:10;4;1\n"
        );
        await LookAsync();
        Assert.Equal([1.0, 2, 3, 4], (await ReadAsync()).Select(reading => reading.Value));
        Assert.Equal(Instant.FromUtc(2026, 10, 25, 1, 10), (await ReadAsync())[2].At);
    }

    private Task PutAsync(string name, string text) =>
        File.WriteAllTextAsync(Path.Combine(_cellar.FullName, name), text, Stop);

    // Seen, then seen again as long as it was.
    private async Task<int> LookAsync()
    {
        await _loggers.LookAsync(Stop);
        _clock.AdvanceSeconds(10);
        return await _loggers.LookAsync(Stop);
    }

    private Task<IReadOnlyList<RawReading>> ReadAsync() =>
        SensorHistory.ReadingsAsync(_store, Water, Start - Duration.FromDays(30), Start, Stop);
}
