using System.Globalization;
using Broodtide.Benchmarks;
using Broodtide.Storage.Sqlite;

// broodtide-benchmarks [--entries N] [--runs N] [--folder DIR]     everything
// broodtide-benchmarks once STORE                                  one reading in a fresh process, for the above
// broodtide-benchmarks larvae [N]                                  the estimate of larvae alive, N times each
// broodtide-benchmarks twin                                        60 days of a vessel's twin, and one reading
// broodtide-benchmarks phone SITE [ENTRIES [RUNS]]                 the published app with a journal of ten years
// broodtide-benchmarks journal FILE [ENTRIES]                      that journal as JSON Lines
// broodtide-benchmarks outlook [ENTRIES]                           what is computed of it, part by part
// broodtide-benchmarks reading [ENTRIES [TIMES]]                   what one more reading costs, part by part
// broodtide-benchmarks pool [RUNS]                                 what runs say of one number, pooled
// broodtide-benchmarks merge [FRAMES ACROSS DOWN [TURNS]]          frames focused at different depths into one picture
// broodtide-benchmarks notes [ROWS [TURNS]]                        a logger's file of so many rows, read by a mapping
if (args is ["notes", .. var lines])
{
    await NotesPace.RunAsync(
        lines is [var rows, ..] ? int.Parse(rows) : 1_000_000,
        lines is [_, var turnsOfNotes] ? int.Parse(turnsOfNotes) : 5
    );
    return 0;
}

if (args is ["merge", .. var wide])
{
    MergePace.Run(
        wide is [var frames, ..] ? int.Parse(frames) : 9,
        wide is [_, var across, var down, ..] ? new(int.Parse(across), int.Parse(down)) : new(4000, 3000),
        wide is [_, _, _, var turns] ? int.Parse(turns) : 3
    );
    return 0;
}

if (args is ["pool", .. var pooledRuns])
{
    Console.WriteLine(Machine.Describe());
    PoolingPace.Run(pooledRuns is [var pooledCount] ? int.Parse(pooledCount) : 10_000);
    return 0;
}

if (args is ["once", var store])
{
    await Reading.OnceAsync(store);
    return 0;
}

if (args is ["larvae", .. var times])
{
    LarvaeAlive.Run(times is [var number] ? int.Parse(number) : 200);
    return 0;
}

if (args is ["twin"])
{
    Console.WriteLine(Machine.Describe());
    VesselTwinPace.Run();
    return 0;
}

if (args is ["phone", var site, .. var more])
{
    await PhonePace.RunAsync(
        site,
        more is [var entries, ..] ? int.Parse(entries) : 50_000,
        more is [_, var often] ? int.Parse(often) : 7
    );
    return 0;
}

if (args is ["outlook", .. var many])
{
    OutlookStages.Run(many is [var wanted] ? int.Parse(wanted) : 50_000);
    return 0;
}

if (args is ["reading", .. var house])
{
    Console.WriteLine(Machine.Describe());
    OneMoreReading.Run(
        house is [var held, ..] ? int.Parse(held) : 50_000,
        house is [_, var turns] ? int.Parse(turns) : 30
    );
    return 0;
}

if (args is ["journal", var file, .. var size])
{
    var told = TenYears.Entries(
        size is [var asked] ? int.Parse(asked) : 50_000,
        NodaTime.SystemClock.Instance.GetCurrentInstant()
    );
    await File.WriteAllLinesAsync(file, Broodtide.Domain.Journal.JournalLines.Write([.. told]));
    return 0;
}

var (count, runs, folder) = (100_000, 15, Path.Combine(Path.GetTempPath(), "broodtide-benchmarks"));
for (var i = 0; i + 1 < args.Length; i += 2)
{
    switch (args[i])
    {
        case "--entries":
            count = int.Parse(args[i + 1]);
            break;
        case "--runs":
            runs = int.Parse(args[i + 1]);
            break;
        case "--folder":
            folder = args[i + 1];
            break;
        default:
            Console.Error.WriteLine("[--entries N] [--runs N] [--folder DIR]");
            return 2;
    }
}

Directory.CreateDirectory(folder);
Console.WriteLine(Machine.Describe());
var path = Path.Combine(folder, $"journal-{count}.db");
await Invented.StoreAsync(path, count);
Console.WriteLine(
    string.Create(
        CultureInfo.InvariantCulture,
        $"store: {count} entries in random order, {Invented.CorrectedShare:P0} of them corrections, {new FileInfo(path).Length / 1e6:F0} MB"
    )
);

Stages.Print("fresh process, file in the system's cache", Reading.InFreshProcesses(path, Math.Min(runs, 7)));
var warm = new List<Stages>();
for (var i = 0; i < runs + 2; i++)
{
    var stages = await Reading.RunAsync(path, useCheckpoints: false);
    if (i >= 2)
    {
        warm.Add(stages);
    }
}

Stages.Print("same process again, from nothing", warm);
await Reading.KeepCheckpointsAsync(path);
warm.Clear();
for (var i = 0; i < runs; i++)
{
    warm.Add(await Reading.RunAsync(path, useCheckpoints: true));
}

Stages.Print("same process again, with checkpoints", warm);
await using (var journal = await SqliteJournal.OpenAsync(path, "benchmark"))
{
    await journal.ForgetCheckpointsAsync();
}

await Appending.RunAsync(Path.Combine(folder, "append.db"), 2000);
return 0;
