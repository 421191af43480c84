using System.Diagnostics;
using System.Globalization;
using Broodtide.Storage.Postgres;
using Broodtide.Workbench.Sensors;
using NodaTime;
using Npgsql;

namespace Broodtide.ReadingsPace;

/// <summary>
/// Invented readings of four sensors, one in ten seconds, in a table a month; how long what a page needs takes as they
/// become more, and the same in one table and with another index.
/// </summary>
internal sealed class Pace(string connection)
{
    private const int Sensors = 4;
    private const long Every = 10_000;
    private const int Asks = 40;
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);
    private readonly SortedDictionary<string, List<(double Count, double Milliseconds)>> _laws = new(
        StringComparer.Ordinal
    );

    public async Task RunAsync(IReadOnlyList<long> counts)
    {
        using var store = PostgresStore.Open(connection);
        await using var readings = PostgresReadings.Open(store, Start);
        await using var database = NpgsqlDataSource.Create(connection);
        var ids = Enumerable.Range(1, Sensors).Select(n => SensorId.Find("shelf", $"probe-{n}")!).ToList();
        foreach (var id in ids)
        {
            await readings.DescribeAsync(id, new("Cel", null, 0.0625, 10), Start);
        }

        var there = 0L;
        foreach (var count in counts)
        {
            await FillAsync(database, there, count);
            there = count;
            var each = count / Sensors;
            var random = new Random(7);
            await Tell(
                count,
                "one day of one sensor (8,640 readings), by month",
                () =>
                {
                    var from =
                        Start + Duration.FromMilliseconds(Every * random.NextInt64(Math.Max(1, each - 8640)));
                    return readings.OpenAsync(ids[random.Next(Sensors)], from, from + Duration.FromDays(1));
                }
            );
            await Tell(
                count,
                "the last hour of one sensor, by month",
                () =>
                {
                    var to = Start + Duration.FromMilliseconds(Every * each);
                    return readings.OpenAsync(ids[random.Next(Sensors)], to - Duration.FromHours(1), to);
                }
            );
            await Tell(
                count,
                "30 days of hours of one sensor (720)",
                () =>
                {
                    var to = Start + Duration.FromMilliseconds(Every * each);
                    return readings.HoursAsync(ids[random.Next(Sensors)], to - Duration.FromDays(30), to);
                }
            );
            foreach (var table in (string[])["plain", "brin"])
            {
                await Tell(
                    count,
                    $"one day of one sensor, {(table == "plain" ? "one table, b-tree" : "by month, BRIN of the time alone")}",
                    async () => await AskAsync(database, table, random, each)
                );
            }

            await Tell(
                count,
                "1,000 readings taken in",
                () => TakeAsync(readings, ids, random, each),
                asks: 20
            );
            await Sizes(database);
        }

        Console.WriteLine();
        Console.WriteLine("growth: milliseconds ~ readings ^ exponent, by least squares over the medians");
        foreach (var (what, points) in _laws)
        {
            Console.WriteLine(
                string.Create(CultureInfo.InvariantCulture, $"{Exponent(points), 6:F3}  {what}")
            );
        }
    }

    private static async ValueTask<object> TakeAsync(
        PostgresReadings readings,
        List<SensorId> ids,
        Random random,
        long each
    )
    {
        // New ones at odd milliseconds in the last two days, so that every one is kept.
        var taken = await readings.TakeAsync([
            .. Enumerable
                .Range(0, 1000)
                .Select(n => new SensorReading(
                    ids[n % Sensors],
                    new(
                        Start
                            + Duration.FromMilliseconds(
                                Every * (each - 1 - random.NextInt64(Math.Min(each, 17_280)))
                                    + 1
                                    + random.Next(9998)
                            ),
                        24.5
                    )
                )),
        ]);
        return taken;
    }

    private static async Task<object> AskAsync(
        NpgsqlDataSource database,
        string table,
        Random random,
        long each
    )
    {
        var from = Start.ToUnixTimeMilliseconds() + (Every * random.NextInt64(Math.Max(1, each - 8640)));
        await using var command = database.CreateCommand(
            $"SELECT at, value FROM {table} WHERE sensor = $1 AND at >= $2 AND at < $3 ORDER BY at"
        );
        command.Parameters.Add(new() { Value = (long)random.Next(1, Sensors + 1) });
        command.Parameters.Add(new() { Value = from });
        command.Parameters.Add(new() { Value = from + 86_400_000 });
        await using var rows = await command.ExecuteReaderAsync();
        var found = 0;
        while (await rows.ReadAsync())
        {
            _ = rows.GetInt64(0) + rows.GetDouble(1);
            found++;
        }

        return found;
    }

    private async Task FillAsync(NpgsqlDataSource database, long there, long count)
    {
        var (first, end) = (there / Sensors, count / Sensors);
        await Run(
            database,
            $"""
            SELECT make_months('2026-01-01', {Months(end).ToString(CultureInfo.InvariantCulture)});
            CREATE TABLE IF NOT EXISTS plain (LIKE reading INCLUDING DEFAULTS, PRIMARY KEY (sensor, at));
            CREATE TABLE IF NOT EXISTS brin (LIKE reading INCLUDING DEFAULTS) PARTITION BY RANGE (at);
            CREATE INDEX IF NOT EXISTS brin_at ON brin USING brin (at) WITH (pages_per_range = 32);
            """
        );
        for (var month = 0; month < Months(end); month++)
        {
            await Run(
                database,
                $"""
                CREATE TABLE IF NOT EXISTS brin_{month} PARTITION OF brin FOR VALUES
                FROM ({At(month)}) TO ({At(month + 1)})
                """
            );
        }

        foreach (var table in (string[])["reading", "plain", "brin"])
        {
            var since = Stopwatch.GetTimestamp();
            // As they come: all sensors at one time, then at the next.
            await Run(
                database,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"""
                    INSERT INTO {table} (sensor, at, value)
                    SELECT s, {Start.ToUnixTimeMilliseconds()} + n * {Every}, 24 + sin(n / 8640.0) + s
                    FROM generate_series({first}::bigint, {end
                        - 1}::bigint) n, generate_series(1, {Sensors}) s
                    """
                )
            );
            var seconds = Stopwatch.GetElapsedTime(since).TotalSeconds;
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{count, 11:N0}  {(count - there) / seconds, 12:N0} rows/s  filled by the database itself: {table}"
                )
            );
        }

        await Run(
            database,
            string.Create(
                CultureInfo.InvariantCulture,
                $"""
                INSERT INTO hour (sensor, at, lowest, mean, highest, readings)
                SELECT sensor, at / 3600000 * 3600000, min(value), avg(value), max(value), count(*)
                FROM plain WHERE at >= {Start.ToUnixTimeMilliseconds() + (first * Every)} GROUP BY 1, 2
                ON CONFLICT DO NOTHING
                """
            )
        );
        await Run(database, "ANALYZE reading, hour, plain, brin");
    }

    private static string At(int month) =>
        new LocalDate(2026, 1, 1)
            .PlusMonths(month)
            .AtStartOfDayInZone(DateTimeZone.Utc)
            .ToInstant()
            .ToUnixTimeMilliseconds()
            .ToString(CultureInfo.InvariantCulture);

    private static int Months(long each) =>
        Period
            .Between(
                new LocalDate(2026, 1, 1),
                (Start + Duration.FromMilliseconds(each * Every)).InUtc().Date,
                PeriodUnits.Months
            )
            .Months + 2;

    private async Task Tell<T>(long count, string what, Func<ValueTask<T>> ask, int asks = Asks) =>
        await Tell(count, what, async () => (object?)await ask(), asks);

    private async Task Tell(long count, string what, Func<Task<object>> ask) =>
        await Tell(count, what, async () => (object?)await ask(), Asks);

    private async Task Tell(long count, string what, Func<Task<object?>> ask, int asks)
    {
        for (var n = 0; n < 10; n++)
        {
            // Compiled, and in memory as after a minute of use.
            await ask();
        }

        var times = new List<double>();
        for (var n = 0; n < asks; n++)
        {
            var since = Stopwatch.GetTimestamp();
            await ask();
            times.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
        }

        times.Sort();
        var median = times[times.Count / 2];
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{count, 11:N0}  {median, 9:F2} ms median, {times[times.Count * 9 / 10], 9:F2} ms at nine of ten  {what}"
            )
        );
        if (!_laws.TryGetValue(what, out var points))
        {
            _laws[what] = points = [];
        }

        points.Add((count, median));
    }

    private static async Task Sizes(NpgsqlDataSource database)
    {
        await using var command = database.CreateCommand(
            """
            SELECT name, sum(pg_relation_size(relid)), sum(pg_indexes_size(relid)) FROM (
                SELECT parent.name, (pg_partition_tree(parent.name::regclass)).relid
                FROM (VALUES ('reading'), ('brin')) AS parent (name)
                UNION ALL SELECT 'plain', 'plain'::regclass) all_of GROUP BY name ORDER BY name
            """
        );
        await using var rows = await command.ExecuteReaderAsync();
        while (await rows.ReadAsync())
        {
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"             {rows.GetDecimal(1) / 1_048_576, 9:F0} MiB rows, {rows.GetDecimal(2) / 1_048_576, 7:F0} MiB indexes  {rows.GetString(0)}"
                )
            );
        }
    }

    private static double Exponent(List<(double Count, double Milliseconds)> points)
    {
        var (meanX, meanY) = (
            points.Average(p => Math.Log(p.Count)),
            points.Average(p => Math.Log(p.Milliseconds))
        );
        return points.Sum(p => (Math.Log(p.Count) - meanX) * (Math.Log(p.Milliseconds) - meanY))
            / points.Sum(p => Math.Pow(Math.Log(p.Count) - meanX, 2));
    }

    private static async Task Run(NpgsqlDataSource database, string statement)
    {
        await using var command = database.CreateCommand(statement);
        command.CommandTimeout = 0;
        await command.ExecuteNonQueryAsync();
    }
}
