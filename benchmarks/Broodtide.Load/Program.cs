using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Broodtide.Load;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using NodaTime;

// load SERVER.dll [MINUTES] [PHONES] [DEVICES] [SENSORS-EACH]
const int People = 20;
const string Passphrase = "nine wet hands at night";
CultureInfo.DefaultThreadCurrentCulture = CultureInfo.InvariantCulture;
int Number(int at, int otherwise) =>
    args.Length > at ? int.Parse(args[at], CultureInfo.InvariantCulture) : otherwise;
var minutes = Number(1, 10);
var phoneCount = Number(2, 200);
var devices = Number(3, 40);
var each = Number(4, 50);

await using var programs = await Programs.StartAsync(args[0]);
var people = new List<(Way Way, PersonId Person)>();
var owner = new Way(programs.Address);
people.Add((owner, await ComeInAsync(owner, PeopleAddresses.First, programs.FirstCode, "Keeper 0")));
while (people.Count < People)
{
    using var made = JsonDocument.Parse(
        await owner.PostAsync(PeopleAddresses.Invitations, """{"role":"keeper","person":null}""")
    );
    var way = new Way(programs.Address);
    people.Add(
        (
            way,
            await ComeInAsync(
                way,
                PeopleAddresses.Join,
                made.RootElement.GetProperty("code").GetString()!,
                $"Keeper {people.Count}"
            )
        )
    );
}

var phones = new Phones(people, phoneCount, TimeSpan.FromSeconds(10));
var sensors = new Sensors(programs.BrokerPort, devices, each, TimeSpan.FromSeconds(10));
using var over = new CancellationTokenSource(TimeSpan.FromMinutes(minutes));
using var sensorsOver = new CancellationTokenSource(TimeSpan.FromMinutes(minutes));
var clock = Stopwatch.StartNew();
var memory = new List<(double Seconds, double Megabytes)>();
var watching = Task.Run(async () =>
{
    while (!sensorsOver.IsCancellationRequested)
    {
        memory.Add((clock.Elapsed.TotalSeconds, programs.ResidentMegabytes()));
        await Task.Delay(TimeSpan.FromSeconds(5));
    }
});
var phonesLive = phones.RunAsync(over.Token);
await sensors.RunAsync(sensorsOver.Token);
await watching;
var processor = programs.ProcessorTime();
var seconds = clock.Elapsed.TotalSeconds;
await phonesLive;

// Everything that the broker took must come to the disk; then a stop while phones go on.
var store = Path.Combine(programs.Data, "journal.sensors.db");
var lag = Stopwatch.StartNew();
while (lag.Elapsed < TimeSpan.FromMinutes(2) && await KeptAsync(store) < sensors.Sent)
{
    await Task.Delay(500);
}

var kept = await KeptAsync(store);
using var last = new CancellationTokenSource(TimeSpan.FromSeconds(15));
var more = new Phones(people, phoneCount, TimeSpan.FromSeconds(1));
var moreLive = more.RunAsync(last.Token);
await Task.Delay(TimeSpan.FromSeconds(8));
var (code, took) = await programs.StopAsync();
await moreLive;

await using var journal = await SqliteJournal.OpenAsync(Path.Combine(programs.Data, "journal.db"), "look");
var held = (await journal.ReadAllAsync()).Select(entry => entry.Digest).ToHashSet();
var confirmed = phones.Confirmed();
var confirmedLate = more.Confirmed();
var sorted = phones.Milliseconds.Order().ToArray();
double At(double share) =>
    sorted.Length == 0 ? double.NaN : sorted[(int)Math.Min(sorted.Length - 1, share * sorted.Length)];
var settled = memory.Where(point => point.Seconds > seconds / 5).ToArray();
var slope = Slope(settled);
Console.WriteLine(
    $"""
    {SystemClock.Instance.GetCurrentInstant():uuuu-MM-dd'T'HH:mm'Z'}, {phoneCount} phones, {devices * each} sensors, {seconds:F0} s
    meetings {sorted.Length} ({sorted.Length / seconds:F1}/s), without an answer {phones.Away}; p50 {At(
        0.5
    ):F1} ms, p99 {At(0.99):F1} ms, longest {At(1):F0} ms
    entries written {phones.Written}, confirmed {confirmed.Count}, of these lost {confirmed.Count(digest =>
        !held.Contains(digest)
    )}
    readings taken by the broker {sensors.Sent} ({sensors.Sent
        / seconds:F0}/s), not taken {sensors.Unsent}, kept {kept}, all there after {lag.Elapsed.TotalSeconds:F1} s
    memory of the server: {settled.FirstOrDefault().Megabytes:F0} MB after a fifth of the time, {memory[
        ^1
    ].Megabytes:F0} MB at the end, most {memory.Max(point => point.Megabytes):F0} MB, slope {slope
        * 60:F2} MB a minute
    processor of the server: {processor.TotalSeconds / seconds * 100:F0} % of one core
    stopped while {phoneCount} phones gave: exit {code} after {took.TotalSeconds:F1} s, confirmed {confirmedLate.Count}, of these lost {confirmedLate.Count(
        digest => !held.Contains(digest)
    )}
    """
);
var lost =
    confirmed.Concat(confirmedLate).Count(digest => !held.Contains(digest))
    + Math.Max(0, sensors.Sent - kept);
return lost == 0 && code == 0 ? 0 : 1;

async Task<PersonId> ComeInAsync(Way way, string path, string code, string name)
{
    using var seen = JsonDocument.Parse(
        await way.PostAsync(path, $$"""{"code":"{{code}}","name":"{{name}}","passphrase":"{{Passphrase}}"}""")
    );
    way.ForgetWord();
    return new PersonId(seen.RootElement.GetProperty("id").GetGuid());
}

static async Task<int> KeptAsync(string path)
{
    await using var readings = ReadingsFile.Open(path);
    var kept = 0;
    var from = SystemClock.Instance.GetCurrentInstant() - Duration.FromDays(2);
    foreach (var sensor in await readings.SensorsAsync())
    {
        kept += (await readings.OpenAsync(sensor.Id, from, from + Duration.FromDays(3))).Count;
    }

    return kept;
}

static double Slope((double Seconds, double Megabytes)[] points)
{
    if (points.Length < 2)
    {
        return 0;
    }

    var (meanX, meanY) = (points.Average(point => point.Seconds), points.Average(point => point.Megabytes));
    return points.Sum(point => (point.Seconds - meanX) * (point.Megabytes - meanY))
        / points.Sum(point => Math.Pow(point.Seconds - meanX, 2));
}
